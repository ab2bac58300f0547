package sectorglass.ext;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

import sectorglass.image.SectorRanges;
import sectorglass.verify.Mark;

/** What a full check has learned so far of all inodes and blocks. */
final class Census {
    /** Nothing was read of the inode. */
    static final byte UNREAD = -1;
    /** In use by its link count. */
    static final byte USED = 0x10;
    /** Without names, but on the list of orphans or in the orphan file. */
    static final byte ORPHAN = 0x20;
    /** Its map or record is not whole. */
    static final byte DOUBTFUL = 0x40;

    final Layout layout;
    final Groups groups;
    /** Per group and inode: type in the low four bits and the marks above; a null group has no inode in use. */
    final byte[][] kind;
    final short[][] links;
    final short[][] names;
    /** Directories in use, in order. */
    final List<Long> directories = new ArrayList<>();
    /** Clusters claimed by files. */
    final Bits claimed;
    /** Clusters of superblocks, descriptors, bitmaps, tables. */
    final Bits metadata;
    /** Clusters claimed more than once, with the inodes that came second. */
    final Map<Long, Set<Long>> shared = new TreeMap<>();
    /** Blocks of extended attributes and how many inodes name them. */
    final Map<Long, Integer> attributes = new TreeMap<>();
    /** Inodes that must not have a name. */
    final Set<Long> orphans = new HashSet<>();
    /** Directories per group. */
    final int[] directoryCount;
    /** Sectors of inode tables that were not read. */
    SectorRanges unreadInodes = SectorRanges.EMPTY;
    /** Sectors of nodes and maps that were not read. */
    SectorRanges unreadMaps = SectorRanges.EMPTY;
    /** Sectors of directories that were not read. */
    SectorRanges unreadNames = SectorRanges.EMPTY;
    /** The first failure that leaves blocks of a file unknown. */
    Mark mapFault;
    /** The first failure that leaves names unknown. */
    Mark nameFault;

    Census(Layout layout, Groups groups) {
        this.layout = layout;
        this.groups = groups;
        kind = new byte[layout.groups][];
        links = new short[layout.groups][];
        names = new short[layout.groups][];
        directoryCount = new int[layout.groups];
        long clusters = layout.sb.blocks() / layout.sb.clusterRatio() + 1;
        claimed = new Bits(clusters);
        metadata = new Bits(clusters);
    }

    /** What was not read, but may hold names. */
    SectorRanges unknownNames() {
        return unreadNames.union(unreadInodes).union(unreadMaps);
    }

    int group(long inode) {
        return (int) ((inode - 1) / layout.sb.inodesPerGroup());
    }

    int index(long inode) {
        return (int) ((inode - 1) % layout.sb.inodesPerGroup());
    }

    void set(long inode, byte value, int linkCount) {
        int group = group(inode);
        if (kind[group] == null) {
            int count = (int) layout.sb.inodesPerGroup();
            kind[group] = new byte[count];
            links[group] = new short[count];
            names[group] = new short[count];
        }
        kind[group][index(inode)] = value;
        links[group][index(inode)] = (short) linkCount;
    }

    byte kind(long inode) {
        int group = group(inode);
        Group found = groups.get(group);
        if (found == null || !groups.tableInside(found)) {
            return UNREAD;
        }
        return kind[group] == null ? 0 : kind[group][index(inode)];
    }

    boolean used(long inode) {
        byte value = kind(inode);
        return value != UNREAD && (value & (USED | ORPHAN)) != 0;
    }

    void named(long inode) {
        int group = group(inode);
        if (kind[group] == null) {
            set(inode, (byte) 0, 0);
        }
        if (names[group][index(inode)] != -1) {
            names[group][index(inode)]++;
        }
    }

    /** Cluster of a block. */
    long cluster(long block) {
        return (block - layout.sb.firstDataBlock()) / layout.sb.clusterRatio();
    }

    /** Marks what the file system itself takes. */
    void claimMetadata() {
        if (layout.mmpBlock() >= 0) {
            mark(layout.mmpBlock(), 1);
        }
        for (long g = 0; g < layout.groups; g++) {
            mark(layout.first(g), layout.headBlocks(g));
            Group group = groups.get(g);
            if (group != null) {
                if (layout.inVolume(group.blockBitmap())) {
                    mark(group.blockBitmap(), 1);
                }
                if (layout.inVolume(group.inodeBitmap())) {
                    mark(group.inodeBitmap(), 1);
                }
                if (groups.tableInside(group)) {
                    mark(group.inodeTable(), layout.inodeTableBlocks());
                }
            }
        }
    }

    private void mark(long first, long count) {
        for (long block = first; block < first + count; block++) {
            metadata.add(cluster(block));
        }
    }
}
