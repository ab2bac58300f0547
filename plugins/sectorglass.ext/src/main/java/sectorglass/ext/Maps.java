package sectorglass.ext;

/** Chooses how an inode's map is read. */
final class Maps {

    private Maps() {
    }

    /** The map; empty for inodes that have none. */
    static BlockMap of(Layout layout, Inode inode) {
        if (!inode.mapped(layout.sb)) {
            return new BlockMap();
        }
        return inode.has(Inode.EXTENTS) ? ExtentTree.read(layout, inode) : IndirectMap.read(layout, inode);
    }
}
