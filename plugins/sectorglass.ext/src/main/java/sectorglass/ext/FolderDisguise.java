package sectorglass.ext;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** Replaces names in the blocks of folders; what lies between entries is zero, checksums are right or wrong as they were. */
final class FolderDisguise {
    private static final int TAIL = 12;

    private final Layout layout;
    private final Disguise names;

    FolderDisguise(Layout layout, Disguise names) {
        this.layout = layout;
        this.names = names;
        names.keep(".");
        names.keep("..");
        names.keep("lost+found");
    }

    /** Changes a little-endian number of four bytes by some bits. */
    static void xor(byte[] bytes, int at, int bits) {
        for (int i = 0; i < 4; i++) {
            bytes[at + i] ^= (byte) (bits >>> 8 * i);
        }
    }

    private static String text(Window w, int at, int length) {
        return new String(w.raw(at, length), StandardCharsets.ISO_8859_1);
    }

    /** Notes the names in the blocks of a run. */
    void learn(BlockMap.Run run) {
        for (long i = 0; i < run.count(); i++) {
            Window w = layout.read(run.physical() + i);
            try {
                DirectoryBlock.walk(layout.sb, w, (at, length, inode, name, type) -> {
                    if (name > 0 && inode != 0 && w.isRead(at + 8, name)) {
                        names.learn(text(w, at + 8, name));
                    }
                });
            } catch (UnreadException e) {
                // what was not read is not copied either
            }
        }
    }

    /** Puts a block of a folder; one that was read in part only stays out. */
    void put(CopyTarget to, long number, Inode folder, boolean first) {
        Window w = layout.read(number);
        if (!layout.inVolume(number) || !w.isRead(0, w.length()) || w.start() % to.source().sectorSize() != 0
                || layout.blockSize % to.source().sectorSize() != 0) {
            return;
        }
        byte[] bytes = w.raw(0, w.length());
        int node = folder.has(Inode.HASH_TREE) ? DirectoryBlock.hashNode(w, first) : 0;
        if (node > 0) {
            int used = node + 8 * w.u16le(node + 2);
            int limit = node + 8 * w.u16le(node);
            if (used > limit || limit > bytes.length) {
                return;
            }
            Arrays.fill(bytes, used, limit, (byte) 0);
            to.put(w, bytes);
            return;
        }
        boolean tail = layout.sb.sums() && DirectoryBlock.hasTail(w);
        int end = tail ? bytes.length - TAIL : bytes.length;
        int seed = tail ? folder.seed(layout.seed) : 0;
        int before = tail ? Crc.raw(seed, bytes, 0, end) : 0;
        int[] reached = new int[1];
        DirectoryBlock.walk(layout.sb, w, (at, length, inode, name, type) -> {
            reached[0] = at + length;
            if (at >= end) {
                return;
            }
            byte[] fresh = inode == 0 ? new byte[name] : names.name(text(w, at + 8, name)).getBytes(StandardCharsets.ISO_8859_1);
            System.arraycopy(fresh, 0, bytes, at + 8, Math.min(name, fresh.length));
            Arrays.fill(bytes, at + 8 + name, Math.min(end, at + length), (byte) 0);
        });
        if (reached[0] < end) {
            // the chain of entries breaks here: its head is kept, since it is a finding
            Arrays.fill(bytes, Math.min(end, reached[0] + 8), end, (byte) 0);
        }
        if (tail) {
            xor(bytes, end + 8, before ^ Crc.raw(seed, bytes, 0, end));
        }
        to.put(w, bytes);
    }
}
