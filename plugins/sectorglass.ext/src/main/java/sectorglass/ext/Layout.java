package sectorglass.ext;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/**
 * Where everything lies, by a superblock whose geometry holds. Source: Linux kernel documentation, filesystems/ext4, layout, block
 * group descriptors and super block.
 */
final class Layout {
    /** Groups for which a table of descriptors is kept; more than a volume of 512 TiB has. */
    private static final long MOST_GROUPS = 1 << 22;

    final VolumeSite site;
    final Superblock sb;
    final int blockSize;
    final int groups;
    /** Start value of metadata checksums. */
    final int seed;

    Layout(VolumeSite site, Superblock sb, int seed) {
        this.site = site;
        this.sb = sb;
        this.blockSize = sb.blockSize();
        this.groups = (int) Math.min(MOST_GROUPS, sb.groups());
        this.seed = seed;
    }

    /** Image bytes of a block; the block must lie in the volume or just after it. */
    ByteRange block(long number) {
        return new ByteRange(site.firstByte() + number * blockSize, blockSize);
    }

    /** Image bytes of some blocks. */
    ByteRange blocks(long number, long count) {
        return new ByteRange(site.firstByte() + number * blockSize, count * blockSize);
    }

    /** The bytes of a block. */
    Window read(long number) {
        return site.window(number * blockSize, blockSize);
    }

    /** The bytes of some blocks. */
    Window read(long number, int count) {
        return site.window(number * blockSize, Math.multiplyExact(count, blockSize));
    }

    /** Whether data or metadata may lie there. */
    boolean inVolume(long number) {
        return number >= sb.firstDataBlock() && number < sb.blocks();
    }

    /** Whether all of these blocks lie in the volume. */
    boolean inVolume(long number, long count) {
        return number >= sb.firstDataBlock() && number < sb.blocks() && count <= sb.blocks() - number;
    }

    /** First block of a group. */
    long first(long group) {
        return sb.firstDataBlock() + group * sb.blocksPerGroup();
    }

    /** Blocks of a group; the last one may be short. */
    long length(long group) {
        return Math.min(sb.blocksPerGroup(), sb.blocks() - first(group));
    }

    /** Group of a block. */
    long groupOf(long block) {
        return (block - sb.firstDataBlock()) / sb.blocksPerGroup();
    }

    /** Whether a group starts with a superblock. */
    boolean hasSuper(long group) {
        if (group == 0) {
            return true;
        }
        if (sb.hasCompat(Features.SPARSE_SUPER2)) {
            return group == sb.backups()[0] || group == sb.backups()[1];
        }
        return !sb.hasRo(Features.SPARSE_SUPER) || group == 1 || (group & 1) == 1 && (power(group, 3) || power(group, 5) || power(group, 7));
    }

    private static boolean power(long value, int base) {
        long v = base;
        while (v < value) {
            v *= base;
        }
        return v == value;
    }

    /** Groups other than the first that start with a superblock, at most some. */
    List<Long> backupGroups(int most) {
        List<Long> all = new ArrayList<>();
        for (long group = 1; group < groups && all.size() < most; group++) {
            if (hasSuper(group)) {
                all.add(group);
            }
        }
        return all;
    }

    /** Descriptors that fit into a block. */
    int descriptorsPerBlock() {
        return blockSize / sb.descSize();
    }

    /** Blocks of the whole descriptor table. */
    long tableBlocks() {
        return (sb.groups() + descriptorsPerBlock() - 1) / descriptorsPerBlock();
    }

    private boolean meta(long tableBlock) {
        return sb.hasIncompat(Features.META_BG) && tableBlock >= sb.firstMetaBg();
    }

    /** Block that holds a block of the primary descriptor table. */
    long tableBlock(long index) {
        if (meta(index)) {
            long group = index * descriptorsPerBlock();
            return group == 0 ? superBlockNumber() + 1 : first(group) + (hasSuper(group) ? 1 : 0);
        }
        return superBlockNumber() + 1 + index;
    }

    /** Block that holds the primary superblock. */
    private long superBlockNumber() {
        return blockSize == 1024 ? 1 : 0;
    }

    /** Blocks that hold further copies of a block of the descriptor table, at most some. */
    List<Long> tableCopies(long index, int most) {
        List<Long> all = new ArrayList<>();
        if (meta(index)) {
            long group = index * descriptorsPerBlock();
            for (long g : new long[] {group + 1, group + descriptorsPerBlock() - 1}) {
                if (g < groups && g > group) {
                    all.add(first(g) + (hasSuper(g) ? 1 : 0));
                }
            }
            return all;
        }
        for (long group : backupGroups(most)) {
            all.add(first(group) + 1 + index);
        }
        return all;
    }

    /** Blocks at the start of a group that superblock, descriptors and their room to grow take. */
    long headBlocks(long group) {
        boolean copy = hasSuper(group);
        long taken = copy ? 1 : 0;
        long plain = sb.hasIncompat(Features.META_BG) ? Math.min(sb.firstMetaBg(), tableBlocks()) : tableBlocks();
        if (copy) {
            taken += plain + (sb.hasIncompat(Features.META_BG) ? 0 : sb.reservedDescriptors());
        }
        if (sb.hasIncompat(Features.META_BG)) {
            long index = group / descriptorsPerBlock();
            long within = group % descriptorsPerBlock();
            if (index >= sb.firstMetaBg() && (within == 0 || within == 1 || within == descriptorsPerBlock() - 1)) {
                taken++;
            }
        }
        if (group == 0 && blockSize == 1024 && sb.firstDataBlock() == 0) {
            taken++;
        }
        return Math.min(taken, length(group));
    }

    /** The block against mounting twice, or -1 where there is none. */
    long mmpBlock() {
        Window w = site.window(1024, Superblock.LENGTH);
        return sb.hasIncompat(Features.MMP) && w.isRead(0x168, 8) && inVolume(w.u64le(0x168)) ? w.u64le(0x168) : -1;
    }

    /** Most blocks that maps and directories of a volume can have together: each block belongs to one file. What is beyond repeats itself. */
    long mostSteps() {
        return sb.blocks() + 1024;
    }

    /** Blocks of the inode table of a group. */
    long inodeTableBlocks() {
        return (sb.inodesPerGroup() * sb.inodeSize() + blockSize - 1) / blockSize;
    }
}
