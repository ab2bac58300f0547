package sectorglass.ntfs;

import sectorglass.image.Window;

/**
 * The boot sector's fields, by offset in bytes, and the values that are legal. Sources: Linux kernel fs/ntfs3/ntfs.h (NTFS_BOOT) and
 * fs/ntfs3/super.c; NTFS-3G libntfs-3g/bootsect.c.
 *
 * <pre>
 *  off len  field
 *  0x03  8  OEM id, "NTFS" and four blanks
 *  0x0B  2  bytes per sector
 *  0x0D  1  sectors per cluster: 1 to 128 as a count, 240 to 253 as 2^(256 - v)
 *  0x28  8  sectors of the volume, its last one not counted
 *  0x30  8  cluster of $MFT
 *  0x38  8  cluster of $MFTMirr
 *  0x40  1  size of a file record: clusters, or 2^-c bytes where negative
 *  0x44  1  size of an index block, the same way
 *  0x48  8  serial number
 * 0x1FE  2  55 AA
 * </pre>
 */
final class BootSector {
    static final int LENGTH = 512;
    static final String OEM = "NTFS    ";
    static final int OEM_ID = 0x03;             // 8 bytes
    static final int SECTOR_BYTES = 0x0B;       // u16
    static final int CLUSTER_SECTORS = 0x0D;    // u8
    static final int HIDDEN_SECTORS = 0x1C;     // u32
    static final int SECTORS = 0x28;            // s64
    static final int MFT_LCN = 0x30;            // s64
    static final int MIRROR_LCN = 0x38;         // s64
    static final int RECORD_SIZE = 0x40;        // s8
    static final int INDEX_SIZE = 0x44;         // s8
    static final int SERIAL = 0x48;             // u64
    static final int END_MARKER = 0x1FE;        // 55 AA
    /** Offset and length of the fields that FAT uses and NTFS keeps zero (NTFS-3G bootsect.c). */
    static final int[][] ZERO = {{0x0E, 2}, {0x10, 1}, {0x11, 2}, {0x13, 2}, {0x16, 2}, {0x20, 4}};
    /** Larger values would not fit into 63 bits of bytes. */
    static final long MAX_SECTORS = 1L << 50;

    private BootSector() {
    }

    static boolean sectorBytesLegal(int bytes) {
        return bytes == 512 || bytes == 1024 || bytes == 2048 || bytes == 4096;
    }

    /** Sectors per cluster that the byte means, or 0 where it is illegal. */
    static int clusterSectors(int value) {
        if (value >= 1 && value <= 128) {
            return Integer.bitCount(value) == 1 ? value : 0;
        }
        return value >= 240 && value <= 253 ? 1 << 256 - value : 0;
    }

    /** Bytes per cluster, or 0 where they are illegal: no power of two, or more than 2 MiB. */
    static int clusterBytes(int sectorBytes, int value) {
        long bytes = (long) sectorBytes * clusterSectors(value);
        return bytes <= 2 << 20 ? (int) bytes : 0;
    }

    /** Bytes per record or index block that the signed byte means, or 0 where it is illegal. */
    static int blockBytes(int unsigned, int clusterBytes, int max) {
        int count = (byte) unsigned;
        long bytes = 0;
        if (count > 0 && Integer.bitCount(count) == 1) {
            bytes = (long) count * clusterBytes;
        } else if (count <= -9 && count >= -31) {
            bytes = 1L << -count;
        }
        return bytes >= 512 && bytes <= max ? (int) bytes : 0;
    }

    static int recordBytes(int unsigned, int clusterBytes) {
        return blockBytes(unsigned, clusterBytes, 4096);
    }

    static int indexBytes(int unsigned, int clusterBytes) {
        return blockBytes(unsigned, clusterBytes, 65536);
    }

    /**
     * The geometry that a boot sector states, where it can be used at all. The number of sectors is not judged here: an illegal one is
     * replaced by what the site holds.
     *
     * @param boot at least 512 bytes that were read
     * @param volumeByte image byte of the volume's first sector
     * @param siteBytes bytes of the place the volume was looked for
     * @return null where sector, cluster or record size is illegal or the OEM id is not that of NTFS
     */
    static Geometry geometry(Window boot, long volumeByte, long siteBytes) {
        int sector = boot.u16le(SECTOR_BYTES);
        if (!boot.matches(OEM_ID, OEM) || !sectorBytesLegal(sector)) {
            return null;
        }
        int cluster = clusterBytes(sector, boot.u8(CLUSTER_SECTORS));
        if (cluster == 0) {
            return null;
        }
        int record = recordBytes(boot.u8(RECORD_SIZE), cluster);
        int index = indexBytes(boot.u8(INDEX_SIZE), cluster);
        if (record == 0) {
            return null;
        }
        long sectors = boot.u64le(SECTORS);
        if (sectors <= 0 || sectors > MAX_SECTORS) {
            sectors = Math.max(0, siteBytes / sector - 1);
        }
        return new Geometry(volumeByte, sector, cluster, record, index == 0 ? 4096 : index, sectors, boot.u64le(MFT_LCN),
                boot.u64le(MIRROR_LCN), boot.u64le(SERIAL));
    }

    /** Whether a boot sector is legal in every field that a driver needs. */
    static boolean sound(Window boot, Geometry geometry) {
        long sectors = boot.u64le(SECTORS);
        return sectors > 0 && sectors <= MAX_SECTORS && lcnLegal(geometry.mftLcn(), geometry) && lcnLegal(geometry.mirrorLcn(), geometry)
                && geometry.mftLcn() != geometry.mirrorLcn() && indexBytes(boot.u8(INDEX_SIZE), geometry.clusterBytes()) != 0
                && zeroFieldsZero(boot);
    }

    static boolean lcnLegal(long lcn, Geometry geometry) {
        return lcn > 0 && lcn < geometry.clusters();
    }

    static boolean zeroFieldsZero(Window boot) {
        for (int[] field : ZERO) {
            if (!boot.filled(field[0], field[1], 0)) {
                return false;
            }
        }
        return true;
    }
}
