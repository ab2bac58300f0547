package sectorglass.partition.label;

import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/**
 * A private header of LDM, big endian. Offsets in bytes (Linux block/partitions/ldm.h).
 *
 * @param lba where it stands
 * @param bytes 512 bytes
 */
record LdmHeader(long lba, Window bytes) {
    static final int LENGTH = 512;
    static final int CHECKSUM = 8;
    static final int MAJOR = 12;
    static final int MINOR = 14;
    static final int DISK_GUID = 48;
    static final int GUID_TEXT = 64;
    static final int DISK_START = 283;
    static final int DISK_SIZE = 291;
    static final int DATABASE_START = 299;
    static final int DATABASE_SIZE = 307;

    static LdmHeader read(SectorImage image, long lba) {
        return new LdmHeader(lba, image.window(lba * image.sectorSize(), LENGTH));
    }

    boolean found() {
        return bytes.isRead(0, LENGTH) && bytes.matches(0, "PRIVHEAD");
    }

    boolean versionKnown() {
        return bytes.u16be(MAJOR) == 2 && (bytes.u16be(MINOR) == 11 || bytes.u16be(MINOR) == 12);
    }

    long databaseStart() {
        return bytes.u64be(DATABASE_START);
    }

    long databaseSize() {
        return bytes.u64be(DATABASE_SIZE);
    }

    /** Whether the data area ends before the database begins, without overflow. */
    boolean ordered() {
        long start = bytes.u64be(DISK_START);
        long size = bytes.u64be(DISK_SIZE);
        return start >= 0 && size >= 0 && databaseStart() >= 0 && size <= databaseStart() - start;
    }

    /** Byte sum of the sector with the field as zero; the rule is known from memory only. */
    long sum() {
        long sum = 0;
        for (int at = 0; at < LENGTH; at++) {
            sum += at >= CHECKSUM && at < CHECKSUM + 4 ? 0 : bytes.u8(at);
        }
        return sum;
    }

    String diskGuid() {
        String text = bytes.ascii(DISK_GUID, GUID_TEXT);
        int end = text.indexOf(0);
        String guid = (end < 0 ? text : text.substring(0, end)).toLowerCase(java.util.Locale.ROOT);
        return guid.matches("[0-9a-f-]{36}") ? guid : null;
    }
}
