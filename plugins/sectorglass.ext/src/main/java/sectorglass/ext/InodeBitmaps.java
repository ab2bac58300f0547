package sectorglass.ext;

import java.util.BitSet;

import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** The inode bitmaps of all groups; those of groups that were never initialised are empty. */
final class InodeBitmaps {
    private final Layout layout;
    private final Groups groups;
    private final BitSet[] used;

    InodeBitmaps(Layout layout, Groups groups) {
        this.layout = layout;
        this.groups = groups;
        this.used = new BitSet[layout.groups];
        int bytes = (int) (layout.sb.inodesPerGroup() / 8);
        for (int g = 0; g < layout.groups; g++) {
            Group group = groups.get(g);
            if (group == null || group.copied() && layout.sb.descriptorSums() || !layout.inVolume(group.inodeBitmap())) {
                continue;
            }
            if (group.inodesUninitialised(layout.sb)) {
                used[g] = new BitSet(0);
                continue;
            }
            Window w = layout.site.window(group.inodeBitmap() * layout.blockSize, bytes);
            if (w.isRead(0, bytes)) {
                used[g] = BitSet.valueOf(w.raw(0, bytes));
            }
        }
    }

    /** Whether the bitmap of a group was read. */
    boolean known(int group) {
        return used[group] != null;
    }

    /** The sectors that keep the bitmap of a group from being known: its own, or those of the group's descriptor. */
    SectorRanges missing(int group) {
        Group found = groups.get(group);
        if (known(group) || found == null || found.copied() && layout.sb.descriptorSums()) {
            return known(group) ? SectorRanges.EMPTY : groups.missing(group);
        }
        int bytes = (int) (layout.sb.inodesPerGroup() / 8);
        return layout.inVolume(found.inodeBitmap())
                ? layout.site.window(found.inodeBitmap() * layout.blockSize, bytes).missing(0, bytes) : SectorRanges.EMPTY;
    }

    /** Whether any bit of a group is set. */
    boolean any(int group) {
        return used[group] != null && !used[group].isEmpty();
    }

    /** Index of the last set bit, or -1. */
    int last(int group) {
        return used[group].length() - 1;
    }

    /** Whether the bit of an inode was read and is set. */
    boolean used(long inode) {
        int group = (int) ((inode - 1) / layout.sb.inodesPerGroup());
        return used[group] != null && used[group].get((int) ((inode - 1) % layout.sb.inodesPerGroup()));
    }

    /** Bits not set in a group. */
    long free(int group) {
        return layout.sb.inodesPerGroup() - used[group].cardinality();
    }
}
