package sectorglass.ext;

/** What the reserved inodes must hold. Source: Linux kernel documentation, filesystems/ext4, special inodes and block groups. */
final class ReservedInodes {
    private static final int POINTERS = 15;
    private static final int DOUBLE_INDIRECT = 13;

    private ReservedInodes() {
    }

    /** Whether inode 7, a plain file, maps the blocks kept for descriptors by its double-indirect pointer and by nothing else. */
    static boolean growthSane(Layout layout, Inode inode) {
        if (inode.type() != Inode.REGULAR || inode.has(Inode.EXTENTS)) {
            return false;
        }
        for (int i = 0; i < POINTERS; i++) {
            long pointer = inode.window().u32le(0x28 + 4 * i);
            if (i == DOUBLE_INDIRECT ? !layout.inVolume(pointer) : pointer != 0) {
                return false;
            }
        }
        return true;
    }
}
