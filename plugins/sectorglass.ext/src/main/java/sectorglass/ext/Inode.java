package sectorglass.ext;

import sectorglass.image.Window;

/**
 * An inode: a window and its fields. Source: Linux kernel documentation, filesystems/ext4, index nodes.
 *
 * @param number of the inode
 * @param window its record
 */
record Inode(long number, Window window) {
    static final int DIRECTORY = 4;
    static final int REGULAR = 8;
    static final int LINK = 10;
    static final long HASH_TREE = 0x1000;
    static final long HUGE_FILE = 0x40000;
    static final long EXTENTS = 0x80000;
    static final long VALUE = 0x200000;
    static final long INLINE = 0x10000000;
    static final long ENCRYPTED = 0x800;

    /** Top four bits of the mode. */
    int type() {
        return window.u16le(0) >>> 12;
    }

    /** Whether the type is one of the seven. */
    boolean typeKnown() {
        int type = type();
        return type == 1 || type == 2 || type == 4 || type == 6 || type == 8 || type == 10 || type == 12;
    }

    int links() {
        return window.u16le(0x1A);
    }

    long flags() {
        return window.u32le(0x20);
    }

    boolean has(long flag) {
        return (flags() & flag) != 0;
    }

    long deleted() {
        return window.u32le(0x14);
    }

    /** Size in bytes; the high half counts for files, and for directories where they can be large. */
    long size(Superblock sb) {
        boolean wide = type() == REGULAR || type() == DIRECTORY && sb.hasIncompat(Features.LARGEDIR) || type() == LINK;
        return window.u32le(4) | (wide ? window.u32le(0x6C) << 32 : 0);
    }

    /** Block of extended attributes, or 0. */
    long attributeBlock() {
        return window.u32le(0x68) | (long) window.u16le(0x76) << 32;
    }

    /** Blocks taken, in units of 512 bytes. */
    long sectors(Superblock sb) {
        long count = window.u32le(0x1C);
        if (sb.hasRo(Features.HUGE_FILE)) {
            count |= (long) window.u16le(0x74) << 32;
            if (has(HUGE_FILE)) {
                count *= sb.blockSize() / 512;
            }
        }
        return count;
    }

    /** Bytes after the first 128 that are in use; 0 in small inodes. */
    int extra() {
        return window.length() > 128 ? window.u16le(0x80) : 0;
    }

    /** Whether the extra size can be. */
    boolean extraSane() {
        int extra = extra();
        return extra % 4 == 0 && extra <= window.length() - 128;
    }

    /** Start value of the checksums of what belongs to the inode. */
    int seed(int volumeSeed) {
        return Crc.raw(Crc.raw(volumeSeed, Crc.le32((int) number)), window.bytes(0x64, 4));
    }

    /** Whether the record is the one its checksum was made for. */
    boolean sumHolds(int volumeSeed) {
        return computed(volumeSeed) == stored();
    }

    /** Stored checksum: 32 bits, or 16 where the record has no room for the rest. */
    long stored() {
        long low = window.u16le(0x7C);
        return wideSum() ? low | (long) window.u16le(0x82) << 16 : low;
    }

    /** Computed checksum. */
    long computed(int volumeSeed) {
        byte[] bytes = window.bytes(0, window.length());
        bytes[0x7C] = 0;
        bytes[0x7D] = 0;
        if (wideSum()) {
            bytes[0x82] = 0;
            bytes[0x83] = 0;
        }
        int seed = Crc.raw(Crc.raw(volumeSeed, Crc.le32((int) number)), bytes, 0x64, 4);
        long crc = Crc.raw(seed, bytes) & 0xFFFFFFFFL;
        return wideSum() ? crc : crc & 0xFFFF;
    }

    private boolean wideSum() {
        return window.length() > 128 && window.u16le(0x80) >= 4;
    }

    /** Milliseconds since 1970 of a time, or {@link Long#MIN_VALUE} where it is zero. */
    long time(int at, int extraAt, int neededExtra) {
        if (at + 4 > window.length() || at >= 128 && extra() < at - 128 + 4) {
            return Long.MIN_VALUE;
        }
        long seconds = (int) window.u32le(at);
        long nanos = 0;
        if (extra() >= neededExtra && extraAt + 4 <= window.length()) {
            long more = window.u32le(extraAt);
            seconds += (more & 3) << 32;
            nanos = more >>> 2;
        }
        return seconds == 0 && nanos == 0 ? Long.MIN_VALUE : seconds * 1000 + Math.min(999, nanos / 1_000_000);
    }

    /** When the content was changed. */
    long modified() {
        return time(0x10, 0x88, 12);
    }

    /** Whether a symbolic link keeps its target in the block map. */
    boolean fastLink(Superblock sb) {
        return type() == LINK && !has(INLINE) && size(sb) < 60 && (!has(EXTENTS) || window.u16le(0x28) != 0xF30A);
    }

    /** Whether the 60 bytes hold a map: not for inline data, short links and devices. */
    boolean mapped(Superblock sb) {
        int type = type();
        return !has(INLINE) && (type == REGULAR || type == DIRECTORY || type == LINK && !fastLink(sb));
    }
}
