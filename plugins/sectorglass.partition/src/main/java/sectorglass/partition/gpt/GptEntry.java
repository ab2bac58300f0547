package sectorglass.partition.gpt;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;

/**
 * One entry of the array that is not all zero (UEFI 2.10, section 5.3.3).
 *
 * @param index from 1
 * @param bytes the entry's bytes, at least 128
 */
record GptEntry(int index, Window bytes) {
    static final int UNIQUE = 16;
    static final int FIRST = 32;
    static final int LAST = 40;
    static final int ATTRIBUTES = 48;
    static final int NAME = 56;
    static final int NAME_UNITS = 36;
    static final int FIELDS = 128;
    /** Ranges are kept to what can be addressed in bytes; what lies beyond is far outside every image. */
    private static final long MAX_LBA = (1L << 50) - 1;

    String type() {
        return Guid.text(bytes, 0);
    }

    boolean used() {
        return !bytes.filled(0, 16, 0);
    }

    String unique() {
        return Guid.text(bytes, UNIQUE);
    }

    long first() {
        return bytes.u64le(FIRST);
    }

    long last() {
        return bytes.u64le(LAST);
    }

    long attributes() {
        return bytes.u64le(ATTRIBUTES);
    }

    /** Whether the first sector does not come after the last. */
    boolean ordered() {
        return Long.compareUnsigned(first(), last()) <= 0;
    }

    /** Its sectors; empty where the range is reversed. */
    SectorRange range() {
        long first = clamp(first());
        return ordered() ? new SectorRange(first, clamp(last()) - first + 1) : new SectorRange(first, 0);
    }

    private static long clamp(long lba) {
        return Long.compareUnsigned(lba, MAX_LBA) > 0 ? MAX_LBA : lba;
    }

    /** All 36 code units, what follows the terminator included. */
    String nameUnits() {
        return bytes.utf16le(NAME, NAME_UNITS);
    }

    /** The name up to its terminator. */
    String name() {
        String units = nameUnits();
        int end = units.indexOf(0);
        return end < 0 ? units : units.substring(0, end);
    }

    ByteRange where(int offset, int length) {
        return new ByteRange(bytes.start() + offset, length);
    }
}
