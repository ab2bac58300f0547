package sectorglass.exfat;

import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/**
 * The fields of an exFAT boot sector over its first 512 bytes. Source: Microsoft exFAT file system specification, revision 1.00,
 * section 3.1. Offsets are in bytes; integers are little-endian and unsigned. Getters throw
 * {@link sectorglass.image.UnreadException} where the sector was not read.
 *
 * @param window at least {@link #SIZE} bytes
 */
record BootSector(Window window) {

    static final int SIZE = 512;
    static final int JUMP = 0;               // EB 76 90
    static final int NAME = 3;               // "EXFAT   "
    static final int ZERO = 11;              // 53 bytes
    static final int PARTITION_OFFSET = 64;  // u8, sectors
    static final int VOLUME_LENGTH = 72;     // u8, sectors
    static final int FAT_OFFSET = 80;        // u4, sectors
    static final int FAT_LENGTH = 84;        // u4, sectors
    static final int HEAP_OFFSET = 88;       // u4, sectors
    static final int CLUSTER_COUNT = 92;     // u4
    static final int ROOT_CLUSTER = 96;      // u4
    static final int SERIAL = 100;           // u4
    static final int REVISION = 104;         // u2
    static final int FLAGS = 106;            // u2
    static final int SECTOR_SHIFT = 108;     // u1
    static final int CLUSTER_SHIFT = 109;    // u1
    static final int FATS = 110;             // u1
    static final int PERCENT = 112;          // u1
    static final int RESERVED = 113;         // 7 bytes
    static final int SIGNATURE = 510;        // 55 AA
    /** Most clusters a volume can have, section 3.1.9. */
    static final long MOST_CLUSTERS = (1L << 32) - 11;

    boolean named() {
        return window.matches(NAME, "EXFAT   ");
    }

    boolean signed() {
        return window.matches(SIGNATURE, 0x55, 0xAA);
    }

    long partitionOffset() {
        return window.u64le(PARTITION_OFFSET);
    }

    /** Unsigned 64 bit. */
    long volumeLength() {
        return window.u64le(VOLUME_LENGTH);
    }

    long fatOffset() {
        return window.u32le(FAT_OFFSET);
    }

    long fatLength() {
        return window.u32le(FAT_LENGTH);
    }

    long heapOffset() {
        return window.u32le(HEAP_OFFSET);
    }

    long clusterCount() {
        return window.u32le(CLUSTER_COUNT);
    }

    long rootCluster() {
        return window.u32le(ROOT_CLUSTER);
    }

    String serial() {
        long id = window.u32le(SERIAL);
        return String.format("%04X-%04X", id >> 16, id & 0xFFFF);
    }

    int revision() {
        return window.u16le(REVISION);
    }

    int flags() {
        return window.u16le(FLAGS);
    }

    int sectorShift() {
        return window.u8(SECTOR_SHIFT);
    }

    int clusterShift() {
        return window.u8(CLUSTER_SHIFT);
    }

    int fats() {
        return window.u8(FATS);
    }

    int percentInUse() {
        return window.u8(PERCENT);
    }

    /** Whether the sector size is legal: 512 to 4096. */
    boolean legalSector() {
        return sectorShift() >= 9 && sectorShift() <= 12;
    }

    /** The image bytes of a field. */
    ByteRange at(int offset, int length) {
        return window.range(offset, length);
    }
}
