package sectorglass.ext;

import sectorglass.image.Window;

/**
 * A group descriptor. Source: Linux kernel documentation, filesystems/ext4, block group descriptors.
 *
 * @param number of the group
 * @param blockBitmap block of the block bitmap
 * @param inodeBitmap block of the inode bitmap
 * @param inodeTable first block of the inode table
 * @param freeBlocks free blocks or clusters
 * @param freeInodes free inodes
 * @param directories directories
 * @param flags 1 inodes not initialised, 2 block bitmap not initialised, 4 table zeroed
 * @param blockSum checksum of the block bitmap
 * @param inodeSum checksum of the inode bitmap
 * @param unused inodes at the end of the table that were never used
 * @param copied whether it was read from a copy of the table, whose counts are stale
 */
record Group(long number, long blockBitmap, long inodeBitmap, long inodeTable, long freeBlocks, long freeInodes, long directories,
        int flags, long blockSum, long inodeSum, long unused, boolean copied) {
    static final int INODES_UNINITIALISED = 1;
    static final int BLOCKS_UNINITIALISED = 2;

    /** Reads one; throws where it was not read. */
    static Group read(long number, Window w, int at, int size, boolean copied) {
        boolean wide = size >= 64;
        return new Group(number, w.u32le(at) | (wide ? w.u32le(at + 0x20) << 32 : 0),
                w.u32le(at + 4) | (wide ? w.u32le(at + 0x24) << 32 : 0), w.u32le(at + 8) | (wide ? w.u32le(at + 0x28) << 32 : 0),
                w.u16le(at + 0xC) | (wide ? (long) w.u16le(at + 0x2C) << 16 : 0),
                w.u16le(at + 0xE) | (wide ? (long) w.u16le(at + 0x2E) << 16 : 0),
                w.u16le(at + 0x10) | (wide ? (long) w.u16le(at + 0x30) << 16 : 0), w.u16le(at + 0x12),
                w.u16le(at + 0x18) | (wide ? (long) w.u16le(at + 0x38) << 16 : 0),
                w.u16le(at + 0x1A) | (wide ? (long) w.u16le(at + 0x3A) << 16 : 0),
                w.u16le(at + 0x1C) | (wide ? (long) w.u16le(at + 0x32) << 16 : 0), copied);
    }

    /** Whether the inode table and bitmap were never written, as far as known: flags of a copy are stale; only with checksums of descriptors. */
    boolean inodesUninitialised(Superblock sb) {
        return !copied && sb.descriptorSums() && (flags & INODES_UNINITIALISED) != 0;
    }

    /** Whether the block bitmap was never written, as far as known; only with checksums of descriptors. */
    boolean blocksUninitialised(Superblock sb) {
        return !copied && sb.descriptorSums() && (flags & BLOCKS_UNINITIALISED) != 0;
    }

    /** Checksum that the descriptor at a place should store. */
    static int sum(Layout layout, long number, Window w, int at) {
        int size = layout.sb.descSize();
        byte[] bytes = w.bytes(at, size);
        if (layout.sb.sums()) {
            bytes[0x1E] = 0;
            bytes[0x1F] = 0;
            return Crc.raw(Crc.raw(layout.seed, Crc.le32((int) number)), bytes) & 0xFFFF;
        }
        int crc = Crc.crc16(0xFFFF, layout.sb.uuid(), 0, 16);
        crc = Crc.crc16(crc, Crc.le32((int) number), 0, 4);
        crc = Crc.crc16(crc, bytes, 0, 0x1E);
        return size > 32 ? Crc.crc16(crc, bytes, 0x20, size - 0x20) : crc;
    }
}
