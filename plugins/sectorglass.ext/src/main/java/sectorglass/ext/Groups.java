package sectorglass.ext;

import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** The descriptor table, read once; a descriptor that was not read comes from a copy where there is one. */
final class Groups {
    private static final int COPIES = 8;

    private final Layout layout;
    private final Group[] all;

    Groups(Layout layout) {
        this.layout = layout;
        this.all = new Group[layout.groups];
        int per = layout.descriptorsPerBlock();
        for (int index = 0; (long) index * per < layout.groups; index++) {
            if (!layout.inVolume(layout.tableBlock(index))) {
                continue;
            }
            fill(index, layout.read(layout.tableBlock(index)), false);
            if (!full(index)) {
                for (long copy : layout.tableCopies(index, COPIES)) {
                    if (!full(index) && layout.inVolume(copy)) {
                        fill(index, layout.read(copy), true);
                    }
                }
            }
        }
    }

    private void fill(int index, Window w, boolean copied) {
        int per = layout.descriptorsPerBlock();
        int size = layout.sb.descSize();
        for (int i = 0; i < per && index * per + i < all.length; i++) {
            if (all[index * per + i] == null && w.isRead(i * size, size)) {
                all[index * per + i] = Group.read(index * (long) per + i, w, i * size, size, copied);
            }
        }
    }

    private boolean full(int index) {
        int per = layout.descriptorsPerBlock();
        for (int i = 0; i < per && index * per + i < all.length; i++) {
            if (all[index * per + i] == null) {
                return false;
            }
        }
        return true;
    }

    /** A descriptor, or null where neither it nor a copy was read. */
    Group get(long number) {
        return all[(int) number];
    }

    /** Sectors of the first copy of a descriptor that were not read. */
    SectorRanges missing(long number) {
        long block = layout.tableBlock(number / layout.descriptorsPerBlock());
        int size = layout.sb.descSize();
        int at = (int) (number % layout.descriptorsPerBlock()) * size;
        return layout.inVolume(block) ? layout.read(block).missing(at, size) : SectorRanges.EMPTY;
    }

    /** Byte of an inode from the start of the site, or -1 where its group is not known or its table lies outside. */
    long inode(long number) {
        if (number < 1 || number > layout.sb.inodes()) {
            return -1;
        }
        long group = (number - 1) / layout.sb.inodesPerGroup();
        if (group >= all.length || all[(int) group] == null || !tableInside(all[(int) group])) {
            return -1;
        }
        return all[(int) group].inodeTable() * layout.blockSize + (number - 1) % layout.sb.inodesPerGroup() * layout.sb.inodeSize();
    }

    /** Whether the inode table of a group lies in the volume. */
    boolean tableInside(Group group) {
        return layout.inVolume(group.inodeTable(), layout.inodeTableBlocks());
    }
}
