package sectorglass.ext;

import sectorglass.image.Window;

/**
 * The superblock's geometry. Source: Linux kernel documentation, filesystems/ext4, super block.
 *
 * @param inodes number of inodes
 * @param blocks number of blocks
 * @param firstDataBlock 1 with blocks of 1024 bytes, else 0
 * @param logBlock logarithm of the block size over 1024
 * @param logCluster logarithm of the cluster size over 1024
 * @param blocksPerGroup blocks of a group
 * @param clustersPerGroup clusters of a group
 * @param inodesPerGroup inodes of a group
 * @param inodeSize bytes of an inode
 * @param descSize bytes of a group descriptor
 * @param compat compatible features
 * @param incompat incompatible features
 * @param roCompat features that forbid writing
 * @param uuid 16 bytes in text order
 * @param firstMetaBg first meta block group
 * @param backups the two groups of sparse_super2
 * @param firstInode first inode that is not reserved
 * @param reservedDescriptors blocks kept free after the descriptor table
 */
record Superblock(long inodes, long blocks, long firstDataBlock, long logBlock, long logCluster, long blocksPerGroup,
        long clustersPerGroup, long inodesPerGroup, int inodeSize, int descSize, long compat, long incompat, long roCompat, byte[] uuid,
        long firstMetaBg, long[] backups, long firstInode, int reservedDescriptors) {
    /** Bytes of a superblock. */
    static final int LENGTH = 1024;
    /** The magic at 0x38. */
    static final int MAGIC = 0xEF53;

    /** Reads the fields; all lie in the first 640 bytes. Throws where they were not read. */
    static Superblock read(Window w) {
        long incompat = w.u32le(0x60);
        boolean wide = (incompat & Features.BIT64) != 0;
        boolean first = w.u32le(0x4C) == 0;
        int desc = w.u16le(0xFE);
        return new Superblock(w.u32le(0), w.u32le(4) | (wide ? w.u32le(0x150) << 32 : 0), w.u32le(0x14), w.u32le(0x18), w.u32le(0x1C),
                w.u32le(0x20), w.u32le(0x24), w.u32le(0x28), first ? 128 : w.u16le(0x58),
                wide && desc >= 64 && desc <= 1024 && Integer.bitCount(desc) == 1 ? desc : 32, w.u32le(0x5C), incompat, w.u32le(0x64),
                w.bytes(0x68, 16), w.u32le(0x104), new long[] {sparse2(w, 0x24C), sparse2(w, 0x250)}, first ? 11 : w.u32le(0x54),
                w.u16le(0xCE));
    }

    /** The groups named there lie in the second half; where it was not read nothing is known of them. */
    private static long sparse2(Window w, int at) {
        return w.isRead(at, 4) ? w.u32le(at) : 0;
    }

    /** Bytes per block; only for a plausible one. */
    int blockSize() {
        return 1024 << logBlock;
    }

    /** Blocks per cluster. */
    int clusterRatio() {
        return bigalloc() ? 1 << logCluster - logBlock : 1;
    }

    /** Number of block groups. */
    long groups() {
        return (blocks - firstDataBlock + blocksPerGroup - 1) / blocksPerGroup;
    }

    /** Whether the compatible feature is set. */
    boolean hasCompat(long bit) {
        return (compat & bit) != 0;
    }

    /** Whether the incompatible feature is set. */
    boolean hasIncompat(long bit) {
        return (incompat & bit) != 0;
    }

    /** Whether the read-only feature is set. */
    boolean hasRo(long bit) {
        return (roCompat & bit) != 0;
    }

    /** Whether metadata carries CRC-32C checksums. */
    boolean sums() {
        return hasRo(Features.METADATA_CSUM);
    }

    /** Whether descriptors carry a checksum of either kind. */
    boolean descriptorSums() {
        return hasRo(Features.METADATA_CSUM | Features.GDT_CSUM);
    }

    /** Whether blocks are allocated in clusters. */
    boolean bigalloc() {
        return hasRo(Features.BIGALLOC);
    }

    /** What contradicts itself in the geometry, or null. */
    String problem() {
        if (logBlock > 6) {
            return "block size 1024 << " + logBlock;
        }
        int size = blockSize();
        if (bigalloc() ? logCluster < logBlock || logCluster > 20 : logCluster != logBlock && clustersPerGroup != 0 && logCluster > 20) {
            return "cluster size 1024 << " + logCluster;
        }
        if (firstDataBlock > 1 || size > 1024 && firstDataBlock != 0 || size == 1024 && firstDataBlock == 0 && !bigalloc()) {
            return "first data block " + firstDataBlock + " with blocks of " + size + " bytes";
        }
        if (blocksPerGroup == 0 || blocksPerGroup % 8 != 0 || blocksPerGroup / clusterRatio() > 8L * size) {
            return blocksPerGroup + " blocks per group";
        }
        if (bigalloc() && clustersPerGroup * clusterRatio() != blocksPerGroup) {
            return clustersPerGroup + " clusters per group of " + blocksPerGroup + " blocks";
        }
        if (blocks <= firstDataBlock || blocks < 0 || blocks >>> 48 != 0) {
            return Long.toUnsignedString(blocks) + " blocks";
        }
        if (inodeSize < 128 || inodeSize > size || Integer.bitCount(inodeSize) != 1) {
            return "inode size " + inodeSize;
        }
        if (inodesPerGroup == 0 || inodesPerGroup % 8 != 0 || inodesPerGroup > 8L * size) {
            return inodesPerGroup + " inodes per group";
        }
        return groups() > Integer.MAX_VALUE / 2 || inodes != groups() * inodesPerGroup
                ? inodes + " inodes in " + groups() + " groups of " + inodesPerGroup : null;
    }

    /** The kind by its features: ext2, ext3 or ext4; null for a journal device. Source: libblkid prober for ext (util-linux). */
    String kind() {
        if (hasIncompat(Features.JOURNAL_DEVICE)) {
            return null;
        }
        if (hasIncompat(Features.EXT4_INCOMPAT) || hasRo(Features.EXT4_RO)) {
            return "ext4";
        }
        return hasCompat(Features.HAS_JOURNAL) ? "ext3" : "ext2";
    }

    /** Checksum of the superblock as it stands: bytes 0 to 0x3FB. */
    static long sum(Window w) {
        return Crc.raw(Crc.START, w.bytes(0, 0x3FC)) & 0xFFFFFFFFL;
    }
}
