package sectorglass.make.ext;

import sectorglass.make.write.VolumeTarget;

/** Sizes and places of an ext4 volume with descriptors of 32 bytes, inodes of 256, and sparse backups. */
final class ExtGeometry {
    static final int INODE_BYTES = 256;
    static final int DESCRIPTOR_BYTES = 32;
    static final int FIRST_USER_INODE = 12;

    private final int blockBytes;
    private final long firstBlock;
    private final long blocks;
    private final long blocksPerGroup;
    private final int groups;
    private final int inodesPerGroup;
    private final int tableBlocks;
    private final int descriptorBlocks;

    /**
     * For one volume.
     *
     * @param inodes number of inodes needed, reserved ones among them
     */
    ExtGeometry(VolumeTarget target, long inodes) {
        blockBytes = target.volume().clusterBytes();
        if (blockBytes < 1024 || blockBytes > 65536) {
            throw new IllegalArgumentException("no ext4: blocks of " + blockBytes + " bytes");
        }
        firstBlock = blockBytes == 1024 ? 1 : 0;
        blocksPerGroup = 8L * Math.min(blockBytes, 8191);
        long all = Math.min(target.medium().bytes() / blockBytes, 0xFFFFFFFFL);
        while (true) {
            long count = (all - firstBlock + blocksPerGroup - 1) / blocksPerGroup;
            int perBlock = blockBytes / INODE_BYTES;
            long perGroup = ((inodes + count - 1) / count + perBlock - 1) / perBlock * perBlock;
            perGroup = Math.max((perGroup + 7) / 8 * 8, 16);
            long descriptors = (count * DESCRIPTOR_BYTES + blockBytes - 1) / blockBytes;
            long overhead = 3 + descriptors + perGroup / perBlock;
            long last = all - firstBlock - (count - 1) * blocksPerGroup;
            if (perGroup > 8L * blockBytes || overhead > blocksPerGroup / 2) {
                throw new IllegalArgumentException(inodes + " inodes do not fit " + count + " groups");
            }
            if (last >= overhead + 16) {
                blocks = all;
                groups = (int) count;
                inodesPerGroup = (int) perGroup;
                tableBlocks = (int) (perGroup / perBlock);
                descriptorBlocks = (int) descriptors;
                return;
            }
            if (count == 1) {
                throw new IllegalArgumentException("the volume is too small for ext4: " + all + " blocks");
            }
            all = firstBlock + (count - 1) * blocksPerGroup;
        }
    }

    int blockBytes() {
        return blockBytes;
    }

    long firstBlock() {
        return firstBlock;
    }

    long blocks() {
        return blocks;
    }

    long blocksPerGroup() {
        return blocksPerGroup;
    }

    int groups() {
        return groups;
    }

    int inodesPerGroup() {
        return inodesPerGroup;
    }

    int tableBlocks() {
        return tableBlocks;
    }

    int descriptorBlocks() {
        return descriptorBlocks;
    }

    long groupStart(int group) {
        return firstBlock + group * blocksPerGroup;
    }

    long groupEnd(int group) {
        return Math.min(blocks, groupStart(group) + blocksPerGroup);
    }

    /** Whether a group has a superblock and descriptors: 0, 1 and the powers of 3, 5 and 7. */
    static boolean hasSuperblock(int group) {
        return group <= 1 || power(group, 3) || power(group, 5) || power(group, 7);
    }

    private static boolean power(int group, int base) {
        long power = base;
        while (power < group) {
            power *= base;
        }
        return power == group;
    }

    long blockBitmap(int group) {
        return groupStart(group) + (hasSuperblock(group) ? 1 + descriptorBlocks : 0);
    }

    long inodeBitmap(int group) {
        return blockBitmap(group) + 1;
    }

    long inodeTable(int group) {
        return blockBitmap(group) + 2;
    }

    /** First block behind the structures of a group. */
    long dataStart(int group) {
        return inodeTable(group) + tableBlocks;
    }

    int groupOf(long inode) {
        return (int) ((inode - 1) / inodesPerGroup);
    }

    long inodeByte(long inode) {
        return inodeTable(groupOf(inode)) * blockBytes + (inode - 1) % inodesPerGroup * INODE_BYTES;
    }
}
