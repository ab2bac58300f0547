package sectorglass.testvolumes;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.zip.CRC32C;

/**
 * Puts files into the empty APFS container that mkapfs made: records, extents, object map, space manager. Not part of any product. What it
 * writes is judged by apfsck. Source: Apple File System Reference by way of apfs_raw.h (linux-apfs).
 */
public final class ApfsMaker implements AutoCloseable {
    /** Inode of the root folder. */
    public static final long ROOT = 2;
    /** Every date: 2023-11-14 22:13:20 UTC in nanoseconds. */
    public static final long TIME = 1700000000L * 1000000000L;

    private static final int BLOCK = 4096;
    private static final int CHUNK = 32768;

    private record Folder(byte[] inode) { }

    private final RandomAccessFile file;
    private final List<LittleEndianTree.Entry> records = new ArrayList<>();
    private final List<LittleEndianTree.Entry> extents = new ArrayList<>();
    private final Map<Long, Folder> folders = new HashMap<>();
    private final Map<Long, byte[]> inodes = new HashMap<>();
    private final long volume;
    private final byte[] super0;
    private final byte[] bitmap;
    private final long bitmapBlock;
    private long nextInode = 16;
    private long nextObject;
    private long files;
    private long links;
    private int nextBlock = 22000;
    private int taken;
    private int gap;

    /** @param image 256 MiB or more, made by mkapfs */
    public ApfsMaker(Path image) throws IOException {
        file = new RandomAccessFile(image.toFile(), "rw");
        super0 = read(0);
        ByteBuffer nx = LittleEndianTree.wrap(super0);
        nextObject = nx.getLong(0x58);
        byte[] map = read(LittleEndianTree.wrap(read(nx.getLong(0xA0))).getLong(0x30));
        volume = LittleEndianTree.wrap(map).getLong(BLOCK - 40 - 16 + 8);
        ByteBuffer info = LittleEndianTree.wrap(read(info()));
        bitmapBlock = info.getLong(0x28 + 24);
        bitmap = read(bitmapBlock);
        long tree = LittleEndianTree.wrap(read(superblock().getLong(0x80))).getLong(0x30);
        ByteBuffer root = LittleEndianTree.wrap(read(LittleEndianTree.wrap(read(tree)).getLong(BLOCK - 40 - 8)));
        int keys = 0x38 + root.getShort(0x2A);
        for (int i = 0; i < root.getInt(0x24); i++) {
            int at = 0x38 + 8 * i;
            byte[] key = new byte[root.getShort(at + 2)];
            root.get(keys + root.getShort(at), key);
            byte[] value = new byte[root.getShort(at + 6)];
            root.get(BLOCK - 40 - root.getShort(at + 4), value);
            records.add(new LittleEndianTree.Entry(key, value));
            long id = LittleEndianTree.wrap(key).getLong(0);
            if (id >>> 60 == 3) {
                folders.put(id & (1L << 60) - 1, new Folder(value));
            }
        }
    }

    private ByteBuffer superblock() {
        return LittleEndianTree.wrap(read(volume));
    }

    /** Block of the space manager; it is the first object of the checkpoint data area. */
    private long manager() {
        ByteBuffer map = LittleEndianTree.wrap(read(LittleEndianTree.wrap(super0).getLong(0x70)));
        for (int i = 0; i < map.getInt(0x24); i++) {
            if ((map.getInt(0x28 + 40 * i) & 0xFFFF) == 5) {
                return map.getLong(0x28 + 40 * i + 32);
            }
        }
        throw new IllegalStateException("no space manager");
    }

    private long info() {
        ByteBuffer manager = LittleEndianTree.wrap(read(manager()));
        return manager.getLong(manager.getInt(0x50));
    }

    private byte[] read(long block) {
        try {
            byte[] bytes = new byte[BLOCK];
            file.seek(block * BLOCK);
            file.readFully(bytes);
            return bytes;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void write(long block, byte[] bytes) {
        try {
            file.seek(block * BLOCK);
            file.write(bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Stores the checksum of an object (Fletcher-64) and writes it. */
    private void object(long block, byte[] bytes) {
        LittleEndianTree.wrap(bytes).putLong(0, sum(bytes));
        write(block, bytes);
    }

    /** The checksum of an object. */
    public static long sum(byte[] bytes) {
        ByteBuffer w = LittleEndianTree.wrap(bytes);
        long modulus = 0xFFFFFFFFL;
        long a = 0;
        long b = 0;
        for (int i = 8; i < bytes.length; i += 4) {
            a = (a + (w.getInt(i) & modulus)) % modulus;
            b = (b + a) % modulus;
        }
        long low = modulus - (a + b) % modulus;
        return modulus - (a + low) % modulus << 32 | low;
    }

    private long take(int blocks) {
        long first = nextBlock;
        for (int i = 0; i < blocks; i++, nextBlock++) {
            if (nextBlock >= CHUNK || (bitmap[nextBlock / 8] & 1 << nextBlock % 8) != 0) {
                throw new IllegalStateException("the first chunk is full");
            }
            bitmap[nextBlock / 8] |= (byte) (1 << nextBlock % 8);
        }
        taken += blocks;
        nextBlock += gap;
        return first;
    }

    /** From here on extents have so many free blocks behind them, and files one extent per block. */
    public ApfsMaker gap(int blocks) {
        gap = blocks;
        return this;
    }

    private static ByteBuffer key(long id, int type, int more) {
        return LittleEndianTree.wrap(new byte[8 + more]).putLong((long) type << 60 | id);
    }

    private static byte[] named(String name) {
        return (name + "\0").getBytes(StandardCharsets.UTF_8);
    }

    /** The hash of a name on a volume that does not tell capitals: CRC-32C over the code points, decomposed and small. */
    private static int hash(String name) {
        CRC32C sum = new CRC32C();
        Normalizer.normalize(name, Normalizer.Form.NFD).toLowerCase(Locale.ROOT).codePoints()
                .forEach(c -> sum.update(LittleEndianTree.wrap(new byte[4]).putInt(0, c).array()));
        return ~(int) sum.getValue() << 10;
    }

    /** Adds a name to a folder; gives nothing back. */
    private void name(long parent, String name, long inode, int type, Long sibling) {
        byte[] bytes = named(name);
        ByteBuffer key = key(parent, 9, 4 + bytes.length).putInt(hash(name) | bytes.length).put(bytes);
        ByteBuffer value = LittleEndianTree.wrap(new byte[18 + (sibling == null ? 0 : 16)]).putLong(inode).putLong(TIME).putShort((short) type);
        if (sibling != null) {
            value.putShort((short) 1).putShort((short) 8).put((byte) 1).put((byte) 2).putShort((short) 8).putLong(sibling);
        }
        records.add(new LittleEndianTree.Entry(key.array(), value.array()));
        ByteBuffer folder = LittleEndianTree.wrap(folders.get(parent).inode());
        folder.putInt(56, folder.getInt(56) + 1);
    }

    private static byte[] inode(long parent, long id, int mode, int flags, int bsd, int count, String name, byte[] stream, long sparse) {
        byte[] bytes = named(name);
        int padded = (bytes.length + 7) / 8 * 8;
        int fields = 1 + (stream == null ? 0 : 1) + (sparse > 0 ? 1 : 0);
        int data = padded + (stream == null ? 0 : 40) + (sparse > 0 ? 8 : 0);
        ByteBuffer w = LittleEndianTree.wrap(new byte[92 + 4 + 4 * fields + data]);
        w.putLong(parent).putLong(id).putLong(TIME).putLong(TIME).putLong(TIME).putLong(TIME).putLong(flags).putInt(count).putInt(0).putInt(0)
                .putInt(bsd).putInt(501).putInt(20).putShort((short) mode).putShort((short) 0).putLong(0);
        w.putShort((short) fields).putShort((short) data);
        w.put((byte) 4).put((byte) 2).putShort((short) bytes.length);
        if (stream != null) {
            w.put((byte) 8).put((byte) 0x20).putShort((short) 40);
        }
        if (sparse > 0) {
            w.put((byte) 13).put((byte) 0x28).putShort((short) 8);
        }
        w.put(bytes).position(w.position() + padded - bytes.length);
        if (stream != null) {
            w.put(stream);
        }
        if (sparse > 0) {
            w.putLong(sparse);
        }
        return w.array();
    }

    private void add(long id, byte[] inode, boolean stream) {
        inodes.put(id, inode);
        if (stream) {
            // only streams that several inodes may share have a record of their own
            records.add(new LittleEndianTree.Entry(key(id, 6, 0).array(), LittleEndianTree.wrap(new byte[4]).putInt(1).array()));
        }
        records.add(new LittleEndianTree.Entry(key(id, 3, 0).array(), inode));
    }

    /** Adds a folder; gives its inode. */
    public long folder(long parent, String name) {
        long id = nextInode++;
        byte[] inode = inode(parent, id, 040755, 0x8000, 0, 0, name, null, 0);
        add(id, inode, false);
        folders.put(id, new Folder(inode));
        name(parent, name, id, 4, null);
        return id;
    }

    /** Adds a file; gives its inode. */
    public long file(long parent, String name, byte[] content) {
        return file(parent, name, content, 0, 0);
    }

    /**
     * Adds a file.
     *
     * @param hole blocks in front of the content that stand nowhere
     * @param bsd flags of the owner: 0x20 is compressed
     */
    public long file(long parent, String name, byte[] content, int hole, int bsd) {
        long id = nextInode++;
        long length = (long) hole * BLOCK + content.length;
        byte[] stream = length == 0 ? null : stream(id, content, hole);
        add(id, inode(parent, id, 0100644, 0x8000 | (hole > 0 ? 0x200 : 0), bsd, 1, name, stream, (long) hole * BLOCK), stream != null);
        name(parent, name, id, 8, null);
        files++;
        return id;
    }

    private byte[] stream(long id, byte[] content, int hole) {
        int blocks = (content.length + BLOCK - 1) / BLOCK;
        if (hole > 0) {
            extent(id, 0, hole, 0);
        }
        for (int done = 0; done < blocks;) {
            int count = gap > 0 ? 1 : blocks - done;
            long first = take(count);
            extent(id, (long) (hole + done) * BLOCK, count, first);
            write(first, Arrays.copyOfRange(content, done * BLOCK, (done + count) * BLOCK));
            extents.add(new LittleEndianTree.Entry(key(first, 2, 0).array(),
                    LittleEndianTree.wrap(new byte[20]).putLong(1L << 60 | count).putLong(id).putInt(1).array()));
            done += count;
        }
        return LittleEndianTree.wrap(new byte[40]).putLong((long) hole * BLOCK + content.length).putLong((long) (hole + blocks) * BLOCK)
                .putLong(0).putLong(content.length).putLong(0).array();
    }

    private void extent(long id, long at, int count, long first) {
        records.add(new LittleEndianTree.Entry(key(id, 8, 8).putLong(at).array(),
                LittleEndianTree.wrap(new byte[24]).putLong((long) count * BLOCK).putLong(first).putLong(0).array()));
    }

    /** Adds an attribute with its data in the record. */
    public void attribute(long id, String name, byte[] value, int flags) {
        byte[] bytes = named(name);
        records.add(new LittleEndianTree.Entry(key(id, 4, 2 + bytes.length).putShort((short) bytes.length).put(bytes).array(),
                LittleEndianTree.wrap(new byte[4 + value.length]).putShort((short) (2 | flags)).putShort((short) value.length).put(value).array()));
    }

    /** Adds an attribute whose data are a stream of their own. */
    public void attributeStream(long id, String name, byte[] value) {
        byte[] bytes = named(name);
        long stream = nextInode++;
        byte[] data = stream(stream, value, 0);
        if (name.equals("com.apple.ResourceFork")) {
            LittleEndianTree.wrap(inodes.get(id)).putLong(48, 0x4000);
        }
        records.add(new LittleEndianTree.Entry(key(id, 4, 2 + bytes.length).putShort((short) bytes.length).put(bytes).array(),
                LittleEndianTree.wrap(new byte[52]).putShort((short) 1).putShort((short) 48).putLong(stream).put(data).array()));
    }

    /** Adds a symbolic link. */
    public long symbolicLink(long parent, String name, String target) {
        long id = nextInode++;
        add(id, inode(parent, id, 0120755, 0x8000, 0, 1, name, null, 0), false);
        attribute(id, "com.apple.fs.symlink", named(target), 4);
        name(parent, name, id, 10, null);
        links++;
        return id;
    }

    /** Adds a file with two names. */
    public long linked(long parent, String first, long other, String second, byte[] content) {
        long id = nextInode++;
        byte[] stream = stream(id, content, 0);
        add(id, inode(parent, id, 0100644, 0x8000, 0, 2, first, stream, 0), true);
        sibling(parent, first, id);
        sibling(other, second, id);
        files++;
        return id;
    }

    private void sibling(long parent, String name, long id) {
        long sibling = nextInode++;
        byte[] bytes = named(name);
        name(parent, name, id, 8, sibling);
        records.add(new LittleEndianTree.Entry(key(id, 5, 8).putLong(sibling).array(),
                LittleEndianTree.wrap(new byte[10 + bytes.length]).putLong(parent).putShort((short) bytes.length).put(bytes).array()));
        records.add(new LittleEndianTree.Entry(key(sibling, 12, 0).array(), LittleEndianTree.wrap(new byte[8]).putLong(id).array()));
    }

    private static int compare(LittleEndianTree.Entry a, LittleEndianTree.Entry b) {
        ByteBuffer left = LittleEndianTree.wrap(a.key());
        ByteBuffer right = LittleEndianTree.wrap(b.key());
        long mask = (1L << 60) - 1;
        int order = Long.compare(left.getLong(0) & mask, right.getLong(0) & mask);
        order = order != 0 ? order : Long.compareUnsigned(left.getLong(0), right.getLong(0));
        if (order != 0 || a.key().length == 8) {
            return order;
        }
        int type = (int) (left.getLong(0) >>> 60);
        if (type == 9) {
            order = Integer.compareUnsigned(left.getInt(8) & ~0x3FF, right.getInt(8) & ~0x3FF);
            return order != 0 ? order : Arrays.compareUnsigned(a.key(), 12, a.key().length, b.key(), 12, b.key().length);
        }
        return type == 4 ? Arrays.compareUnsigned(a.key(), 10, a.key().length, b.key(), 10, b.key().length)
                : Long.compareUnsigned(left.getLong(8), right.getLong(8));
    }

    /** Writes all trees and counts. */
    @Override
    public void close() throws IOException {
        gap = 0;
        records.sort(ApfsMaker::compare);
        extents.sort(ApfsMaker::compare);
        ByteBuffer sb = superblock();
        long mapTree = LittleEndianTree.wrap(read(sb.getLong(0x80))).getLong(0x30);
        byte[] oldMap = read(mapTree);
        long rootBlock = LittleEndianTree.wrap(oldMap).getLong(BLOCK - 40 - 8);
        List<LittleEndianTree.Entry> mapped = new ArrayList<>();
        for (LittleEndianTree.Node node : new LittleEndianTree(read(rootBlock), false).write(records, () -> nextObject++)) {
            long block = mapped.isEmpty() ? rootBlock : take(1);
            mapped.add(new LittleEndianTree.Entry(LittleEndianTree.wrap(new byte[16]).putLong(node.id()).putLong(1).array(),
                    LittleEndianTree.wrap(new byte[16]).putInt(0).putInt(BLOCK).putLong(block).array()));
            object(block, node.bytes());
        }
        // in the object map and the extents tree a node's id is its block
        new LittleEndianTree(oldMap, true).write(mapped, () -> take(1)).forEach(node -> object(node.id(), node.bytes()));
        long extentTree = sb.getLong(0x90);
        new LittleEndianTree(read(extentTree), false).write(extents, () -> take(1)).forEach(node -> object(node.id(), node.bytes()));
        sb.putLong(0x58, sb.getLong(0x58) + taken).putLong(0xB0, nextInode).putLong(0xB8, files)
                .putLong(0xC0, folders.keySet().stream().filter(id -> id >= 16).count()).putLong(0xC8, links)
                .putLong(0xE0, sb.getLong(0xE0) + taken);
        object(volume, sb.array());
        space();
        for (long block : new long[] {0, LittleEndianTree.wrap(super0).getLong(0x70) + 1}) {
            byte[] nx = read(block);
            LittleEndianTree.wrap(nx).putLong(0x58, nextObject);
            object(block, nx);
        }
        file.close();
    }

    private void space() {
        write(bitmapBlock, bitmap);
        long info = info();
        byte[] chunks = read(info);
        ByteBuffer w = LittleEndianTree.wrap(chunks);
        w.putInt(0x28 + 20, w.getInt(0x28 + 20) - taken);
        object(info, chunks);
        long manager = manager();
        byte[] space = read(manager);
        LittleEndianTree.wrap(space).putLong(0x48, LittleEndianTree.wrap(space).getLong(0x48) - taken);
        object(manager, space);
    }
}
