package sectorglass.partition.gpt;

import java.util.zip.CRC32;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/**
 * A sector where a GPT header stands or ought to stand. Offsets in bytes as in UEFI 2.10, section 5.3.2. Getters of fields throw
 * {@code UnreadException} where the sector was not read; 64-bit fields are unsigned.
 *
 * @param lba where it was looked for
 * @param sector the whole sector
 */
public record GptHeader(long lba, Window sector) {
    static final int REVISION = 8;
    static final int HEADER_SIZE = 12;
    static final int CRC = 16;
    static final int RESERVED = 20;
    static final int MY_LBA = 24;
    static final int ALTERNATE_LBA = 32;
    static final int FIRST_USABLE = 40;
    static final int LAST_USABLE = 48;
    static final int DISK_GUID = 56;
    static final int ENTRY_LBA = 72;
    static final int ENTRY_COUNT = 80;
    static final int ENTRY_SIZE = 84;
    static final int ENTRIES_CRC = 88;
    static final int MIN_SIZE = 92;

    private static final String SIGNATURE = "EFI PART";

    static GptHeader read(SectorImage image, long lba) {
        return new GptHeader(lba, image.sector(lba));
    }

    /** Whether the sector was read. */
    public boolean read() {
        return sector.isRead(0, sector.length());
    }

    /** Whether it was read and bears the signature. */
    public boolean found() {
        return read() && sector.matches(0, SIGNATURE);
    }

    long headerSize() {
        return sector.u32le(HEADER_SIZE);
    }

    boolean sizeLegal() {
        return headerSize() >= MIN_SIZE && headerSize() <= sector.length();
    }

    long storedCrc() {
        return sector.u32le(CRC);
    }

    /** CRC-32 over HeaderSize bytes with the field itself as zero; the size must be legal. */
    long computedCrc() {
        byte[] bytes = sector.bytes(0, (int) headerSize());
        java.util.Arrays.fill(bytes, CRC, CRC + 4, (byte) 0);
        CRC32 crc = new CRC32();
        crc.update(bytes);
        return crc.getValue();
    }

    /** Whether signature, size and checksum hold. */
    public boolean sound() {
        return found() && sizeLegal() && storedCrc() == computedCrc();
    }

    /** Whether the copy can serve: sound, and where it says it is. */
    public boolean good() {
        return sound() && myLba() == lba;
    }

    /** MyLBA. */
    public long myLba() {
        return sector.u64le(MY_LBA);
    }

    /** AlternateLBA. */
    public long alternateLba() {
        return sector.u64le(ALTERNATE_LBA);
    }

    /** First LBA that a partition may have, as stored. */
    public long firstUsable() {
        return sector.u64le(FIRST_USABLE);
    }

    /** Last LBA that a partition may have, as stored. */
    public long lastUsable() {
        return sector.u64le(LAST_USABLE);
    }

    String diskGuid() {
        return Guid.text(sector, DISK_GUID);
    }

    /** The entry array as the header describes it. */
    GptEntries entries() {
        return new GptEntries(sector.u64le(ENTRY_LBA), sector.u32le(ENTRY_COUNT), sector.u32le(ENTRY_SIZE), sector.sectorSize());
    }

    long storedEntriesCrc() {
        return sector.u32le(ENTRIES_CRC);
    }

    /** Image bytes of the sector. */
    public ByteRange where() {
        return new ByteRange(sector.start(), sector.length());
    }

    /** Image bytes of a field. */
    public ByteRange where(int offset, int length) {
        return new ByteRange(sector.start() + offset, length);
    }

    /** Whether a range touches the entries that this header describes; false where their size makes no sense. */
    public boolean overEntries(ByteRange range) {
        return entries().readable() && entries().where().overlaps(range);
    }

    /** HeaderSize in bytes, as stored. */
    public long size() {
        return headerSize();
    }

    /** SizeOfPartitionEntry in bytes, as stored. */
    public long entrySize() {
        return entries().size();
    }
}
