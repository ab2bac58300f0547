package sectorglass.ext;

import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** Type, size and time of all inodes, kept group by group; what was never used costs nothing. */
final class InodeIndex {
    static final byte UNREAD = -1;
    static final byte DELETED = 0x40;
    private static final int PIECE = 1 << 20;

    private final Layout layout;
    /** Type in the low four bits, {@link #DELETED} above; 0 where never used. */
    private final byte[][] kind;
    private final long[][] size;
    private final long[][] time;
    /** Sectors of inode tables that were not read. */
    SectorRanges unread = SectorRanges.EMPTY;

    InodeIndex(Layout layout, Groups groups, Progress progress) {
        this.layout = layout;
        kind = new byte[layout.groups][];
        size = new long[layout.groups][];
        time = new long[layout.groups][];
        for (int g = 0; g < layout.groups; g++) {
            progress.checkCancelled();
            progress.at("inode tables", g, layout.groups);
            Group group = groups.get(g);
            if (group != null && groups.tableInside(group) && !group.inodesUninitialised(layout.sb)) {
                read(g, group);
            }
        }
    }

    private void read(int g, Group group) {
        int inodeSize = layout.sb.inodeSize();
        long all = layout.sb.inodesPerGroup();
        long count = layout.sb.descriptorSums() && group.unused() <= all && !group.copied() ? all - group.unused() : all;
        int perPiece = PIECE / inodeSize;
        for (long first = 0; first < count; first += perPiece) {
            int n = (int) Math.min(perPiece, count - first);
            Window w = layout.site.window(group.inodeTable() * layout.blockSize + first * inodeSize, n * inodeSize);
            boolean clean = w.isRead(0, n * inodeSize);
            byte[] raw = w.raw(0, n * inodeSize);
            for (int i = 0; i < n; i++) {
                int at = i * inodeSize;
                if (!clean && !w.isRead(at, inodeSize)) {
                    set(g, (int) first + i, UNREAD, -1, Long.MIN_VALUE);
                    unread = unread.union(w.missing(at, inodeSize));
                } else if (raw[at] != 0 || raw[at + 1] != 0) {
                    inode(g, (int) first + i, new Inode(g * all + first + i + 1, w.sub(at, inodeSize)));
                }
            }
        }
    }

    private void inode(int g, int index, Inode inode) {
        if (!inode.typeKnown() || inode.links() == 0 && inode.deleted() == 0) {
            return;
        }
        byte value = (byte) (inode.type() | (inode.links() == 0 ? DELETED : 0));
        set(g, index, value, Math.max(-1, inode.size(layout.sb)), inode.modified());
    }

    private void set(int g, int index, byte value, long bytes, long modified) {
        if (kind[g] == null) {
            int count = (int) layout.sb.inodesPerGroup();
            kind[g] = new byte[count];
            size[g] = new long[count];
            time[g] = new long[count];
        }
        kind[g][index] = value;
        size[g][index] = bytes;
        time[g][index] = modified;
    }

    private int group(long number) {
        return (int) ((number - 1) / layout.sb.inodesPerGroup());
    }

    private int index(long number) {
        return (int) ((number - 1) % layout.sb.inodesPerGroup());
    }

    /** Whether the number can be an inode. */
    boolean legal(long number) {
        return number >= 1 && number <= layout.sb.inodes() && group(number) < kind.length;
    }

    byte kind(long number) {
        return kind[group(number)] == null ? 0 : kind[group(number)][index(number)];
    }

    /** Type of an inode in use or deleted; 0 where it is neither, or was not read. */
    int type(long number) {
        byte value = kind(number);
        return value == UNREAD ? 0 : value & 15;
    }

    boolean used(long number) {
        byte value = kind(number);
        return value > 0 && (value & DELETED) == 0;
    }

    boolean deleted(long number) {
        byte value = kind(number);
        return value > 0 && (value & DELETED) != 0;
    }

    long size(long number) {
        return size[group(number)] == null ? -1 : size[group(number)][index(number)];
    }

    long time(long number) {
        return time[group(number)] == null ? Long.MIN_VALUE : time[group(number)][index(number)];
    }
}
