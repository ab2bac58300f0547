package sectorglass.ext;

import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** Walks the entries of a directory block. Source: Linux kernel documentation, filesystems/ext4, directory entries. */
final class DirectoryBlock {

    /** Sees entries. */
    interface Sink {
        /**
         * @param at offset of the entry in the window
         * @param length bytes to the next entry
         * @param inode 0 where the entry is not in use
         * @param name bytes of the name
         * @param type file type, or -1 where entries have none
         */
        void entry(int at, int length, long inode, int name, int type);
    }

    /**
     * Where the walk stopped.
     *
     * @param at offset of the entry that breaks the rule, or -1
     * @param problem what is wrong with it
     */
    record End(int at, String problem) { }

    private static final End SOUND = new End(-1, null);

    private DirectoryBlock() {
    }

    /** Whether everything that a walk looks at was read: heads and names, not what lies between them and the next entry. */
    static boolean entriesRead(Superblock sb, Window w) {
        try {
            walk(sb, w, (at, length, inode, name, type) -> w.require(at, 8 + name));
            return true;
        } catch (UnreadException e) {
            return false;
        }
    }

    /** Walks a window whose entries were read. */
    static End walk(Superblock sb, Window w, Sink sink) {
        boolean typed = sb.hasIncompat(Features.FILETYPE);
        int end = w.length();
        int at = 0;
        while (at < end) {
            if (at + 8 > end) {
                return new End(at, "entry reaches over the end of the block");
            }
            int length = w.u16le(at + 4);
            if (end == 65536 && (length == 0xFFFF || length == 0)) {
                length = 65536;
            }
            int name = typed ? w.u8(at + 6) : w.u16le(at + 6);
            long inode = w.u32le(at);
            if (length < 12 && !(length == 8 && inode == 0) || length % 4 != 0) {
                return new End(at, "length " + length);
            }
            if (length > end - at) {
                return new End(at, "length " + length + ", " + (end - at) + " bytes left");
            }
            if (8 + name > length) {
                return new End(at, "name of " + name + " bytes in an entry of " + length);
            }
            sink.entry(at, length, inode, name, typed ? w.u8(at + 7) : -1);
            at += length;
        }
        return SOUND;
    }

    /** Whether the block ends with the entry that holds its checksum. */
    static boolean hasTail(Window w) {
        int at = w.length() - 12;
        return w.u32le(at) == 0 && w.u16le(at + 4) == 12 && w.u8(at + 6) == 0 && w.u8(at + 7) == 0xDE;
    }

    /**
     * Offset of limit and count where the block is a node of a hash tree, or 0.
     *
     * @param first whether it is the first block of the directory
     */
    static int hashNode(Window w, boolean first) {
        if (first) {
            return w.u16le(4) == 12 && w.u16le(16) == w.length() - 12 && w.u32le(0x18) == 0 && w.u8(0x1D) == 8 ? 0x20 : 0;
        }
        return w.u32le(0) == 0 && w.u16le(4) == (w.length() & 0xFFFF) && w.u16le(6) == 0 ? 8 : 0;
    }
}
