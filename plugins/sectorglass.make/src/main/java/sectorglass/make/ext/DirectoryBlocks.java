package sectorglass.make.ext;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.write.Block;

/** The blocks of a linear directory, each with its checksum tail. */
final class DirectoryBlocks {
    static final int FILE = 1;
    static final int DIRECTORY = 2;
    private static final int TAIL = 12;

    private final int blockBytes;
    private final List<Block> blocks = new ArrayList<>();
    private Block current;
    private int at;
    private int previous = -1;

    DirectoryBlocks(int blockBytes) {
        this.blockBytes = blockBytes;
    }

    static byte[] name(String name) {
        byte[] bytes = name.getBytes(StandardCharsets.UTF_8);
        if (bytes.length == 0 || bytes.length > 255 || name.indexOf('/') >= 0 || name.indexOf(0) >= 0) {
            throw new IllegalArgumentException("ext4 cannot store the name \"" + name + "\"");
        }
        return bytes;
    }

    /** Adds an entry. */
    void add(String text, long inode, int type) {
        byte[] name = name(text);
        int start = room(name);
        write(start, name, inode, type);
        previous = start;
    }

    /** Adds an entry and takes it out again: its bytes stay in the slack of the one before it. */
    void addDeleted(String text, long inode) {
        byte[] name = name(text);
        int start = room(name);
        if (previous < 0) {
            write(start, name, 0, FILE);
            previous = start;
            return;
        }
        write(start, name, inode, FILE);
        current.u16(previous + 4, at - previous);
    }

    private int room(byte[] name) {
        int length = 8 + name.length + 3 & ~3;
        if (current == null || at + length > blockBytes - TAIL) {
            close();
            current = new Block(blockBytes);
            blocks.add(current);
            at = 0;
            previous = -1;
        }
        int start = at;
        at += length;
        return start;
    }

    private void write(int start, byte[] name, long inode, int type) {
        current.u32(start, inode).u16(start + 4, at - start).u8(start + 6, name.length).u8(start + 7, type).put(start + 8, name);
    }

    private void close() {
        if (current != null) {
            current.u16(previous + 4, blockBytes - TAIL - previous);
        }
    }

    /** The finished blocks; nothing may be added any more. */
    List<byte[]> finish(int ownSeed) {
        close();
        for (Block block : blocks) {
            int tail = blockBytes - TAIL;
            block.u16(tail + 4, TAIL).u8(tail + 7, 0xDE).u32(tail + 8, Crc32c.of(ownSeed, block.bytes(), 0, tail));
        }
        return blocks.stream().map(Block::bytes).toList();
    }
}
