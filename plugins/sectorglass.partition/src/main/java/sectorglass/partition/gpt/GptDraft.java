package sectorglass.partition.gpt;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;

/** A GPT made where no header is left: from entries that still stand, or from volumes. What nothing tells is zero. */
public final class GptDraft {
    private static final int COUNT = 128;
    private static final int REVISION_1 = 0x00010000;
    private static final String SIGNATURE = "EFI PART";

    private final SectorImage image;
    private final byte[] array = new byte[COUNT * GptEntry.FIELDS];
    private byte[] guid = new byte[16];
    private int used;
    /** The usable sectors as a header stores them, or -1. */
    private long storedFirst = -1;
    private long storedLast = -1;

    /** An empty table for an image. */
    public GptDraft(SectorImage image) {
        this.image = image;
    }

    /** Sectors that the entries take. */
    public long arraySectors() {
        return (array.length + image.sectorSize() - 1) / image.sectorSize();
    }

    /** First sector that a partition may have. */
    public long firstUsable() {
        return 2 + arraySectors();
    }

    /** Last sector that a partition may have. */
    public long lastUsable() {
        return image.sectors() - 2 - arraySectors();
    }

    /** Whether a range may be a partition here. */
    public boolean holds(SectorRange range) {
        return range.count() > 0 && range.first() >= firstUsable() && range.last() <= lastUsable() && used < COUNT;
    }

    /** Adds a partition whose own GUID, name and attributes are not known. */
    public void add(String type, SectorRange range) {
        int at = used++ * GptEntry.FIELDS;
        System.arraycopy(Guid.bytes(type), 0, array, at, 16);
        GptCopies.le(array, at + GptEntry.FIRST, 8, range.first());
        GptCopies.le(array, at + GptEntry.LAST, 8, range.last());
    }

    /** Takes entries as they stand, 128 of 128 bytes, and the disk's GUID. */
    public void take(byte[] entries) {
        System.arraycopy(entries, 0, array, 0, array.length);
    }

    /** The disk's GUID, 16 bytes as stored. */
    public void guid(byte[] stored) {
        guid = stored.clone();
    }

    /**
     * Takes the first and last usable sector as a header stores them, if they are legal and hold every entry.
     *
     * @return whether they were taken and are others than {@link #firstUsable()} and {@link #lastUsable()}
     */
    public boolean usable(long first, long last) {
        if (first < firstUsable() || last > lastUsable() || first > last) {
            return false;
        }
        for (int i = 0; i < COUNT; i++) {
            int at = i * GptEntry.FIELDS;
            long from = le(at + GptEntry.FIRST);
            if (from != 0 && (from < first || le(at + GptEntry.LAST) > last)) {
                return false;
            }
        }
        storedFirst = first;
        storedLast = last;
        return first != firstUsable() || last != lastUsable();
    }

    private long le(int at) {
        return ByteBuffer.wrap(array).order(ByteOrder.LITTLE_ENDIAN).getLong(at);
    }

    /** The entries. */
    public byte[] array() {
        return array.clone();
    }

    /** The copy at LBA 1 or in the last sector. */
    public GptCopies.Copy copy(boolean primary) {
        long last = image.sectors() - 1;
        long entries = primary ? 2 : last - arraySectors();
        byte[] sector = new byte[image.sectorSize()];
        System.arraycopy(SIGNATURE.getBytes(java.nio.charset.StandardCharsets.US_ASCII), 0, sector, 0, 8);
        GptCopies.le(sector, GptHeader.REVISION, 4, REVISION_1);
        GptCopies.le(sector, GptHeader.HEADER_SIZE, 4, GptHeader.MIN_SIZE);
        GptCopies.le(sector, GptHeader.MY_LBA, 8, primary ? 1 : last);
        GptCopies.le(sector, GptHeader.ALTERNATE_LBA, 8, primary ? last : 1);
        GptCopies.le(sector, GptHeader.FIRST_USABLE, 8, storedFirst < 0 ? firstUsable() : storedFirst);
        GptCopies.le(sector, GptHeader.LAST_USABLE, 8, storedLast < 0 ? lastUsable() : storedLast);
        System.arraycopy(guid, 0, sector, GptHeader.DISK_GUID, 16);
        GptCopies.le(sector, GptHeader.ENTRY_LBA, 8, entries);
        GptCopies.le(sector, GptHeader.ENTRY_COUNT, 4, COUNT);
        GptCopies.le(sector, GptHeader.ENTRY_SIZE, 4, GptEntry.FIELDS);
        CRC32 crc = new CRC32();
        crc.update(array);
        GptCopies.seal(sector, GptHeader.MIN_SIZE, crc.getValue());
        return new GptCopies.Copy(primary ? 1 : last, sector, entries);
    }

    /** Entries that stand at a place, 128 of 128 bytes, if each used one is legal and they do not overlap; else null. */
    public byte[] entriesAt(long lba) {
        GptEntries there = new GptEntries(lba, COUNT, GptEntry.FIELDS, image.sectorSize());
        if (lba < 2 || lba + there.sectors() > image.sectors() || !there.missing(image).isEmpty()) {
            return null;
        }
        List<SectorRange> ranges = new ArrayList<>();
        for (GptEntry entry : there.list(image)) {
            boolean legal = entry.used() && !entry.unique().equals(Guid.ZERO) && entry.ordered() && entry.first() >= firstUsable()
                    && entry.last() <= lastUsable() && ranges.stream().noneMatch(entry.range()::overlaps);
            if (!legal) {
                return null;
            }
            ranges.add(entry.range());
        }
        return ranges.isEmpty() ? null : image.window(there.firstByte(), array.length).raw(0, array.length);
    }
}
