package sectorglass.partition.gpt;

import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;

import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * Both copies of a GPT as they ought to be, from one sound header and an array that matches its checksum, wherever that array stands.
 * UEFI 2.10, section 5.3.2: the copies differ in MyLBA, AlternateLBA, PartitionEntryLBA and the header's checksum only.
 *
 * @param source the sound header
 * @param array bytes of the entries
 * @param arrayLba where they were found
 */
public record GptCopies(GptHeader source, byte[] array, long arrayLba) {
    /** Bytes kept for entries at least (UEFI 2.10, section 5.3.1). */
    public static final int LEAST_ARRAY = 16384;

    /** A header and where it and its entries go. */
    public record Copy(long lba, byte[] header, long arrayLba) { }

    /** The best source on a disk, or null where no header is sound or no array matches it. */
    public static GptCopies of(GptDisk disk, SectorImage image) {
        for (GptHeader header : new GptHeader[] {disk.primary(), disk.backup()}) {
            GptCopies found = header == null || !header.good() || !header.entries().readable() ? null : from(header, disk, image);
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    private static GptCopies from(GptHeader header, GptDisk disk, SectorImage image) {
        GptEntries own = header.entries();
        long sectors = own.sectors();
        List<Long> places = new ArrayList<>(List.of(own.lba(), 2L, header.lba() - sectors, header.lastUsable() + 1));
        GptHeader other = disk.other(header);
        if (other != null) {
            places.add(other.lba() - sectors);
        }
        for (long lba : places) {
            if (lba < 2 || lba + sectors > image.sectors()) {
                continue;
            }
            byte[] bytes = matching(image, new GptEntries(lba, own.count(), own.size(), image.sectorSize()), header.storedEntriesCrc());
            if (bytes != null) {
                return new GptCopies(header, bytes, lba);
            }
        }
        return null;
    }

    private static byte[] matching(SectorImage image, GptEntries array, long crc) {
        try {
            if (array.crc(image) != crc) {
                return null;
            }
            Window window = image.window(array.firstByte(), (int) array.bytes());
            return window.bytes(0, window.length());
        } catch (UnreadException e) {
            return null;
        }
    }

    /** Sectors that the entries take. */
    public long arraySectors() {
        return source.entries().sectors();
    }

    /** The primary copy; its entries stay where matching ones stand before the first usable sector, else they go to LBA 2. */
    public Copy primary() {
        boolean own = source.lba() == 1;
        long entries = own ? source.entries().lba() : arrayLba >= 2 && arrayLba + arraySectors() <= source.firstUsable() ? arrayLba : 2;
        return new Copy(1, header(1, own ? source.alternateLba() : source.lba(), entries), entries);
    }

    /** The backup copy, in the sector that the source names. */
    public Copy backup() {
        boolean own = source.lba() != 1;
        long lba = own ? source.lba() : source.alternateLba();
        boolean stands = arrayLba > source.lastUsable() && arrayLba + arraySectors() <= lba;
        long entries = own ? source.entries().lba() : stands ? arrayLba : lba - arraySectors();
        return new Copy(lba, header(lba, 1, entries), entries);
    }

    /** Whether the entries fit at the place the copy has for them, clear of everything else. */
    public boolean fits(Copy copy) {
        return copy.lba() == 1 ? copy.arrayLba() >= 2 && copy.arrayLba() + arraySectors() <= source.firstUsable()
                : copy.arrayLba() > source.lastUsable() && copy.arrayLba() + arraySectors() <= copy.lba();
    }

    private byte[] header(long my, long alternate, long entries) {
        byte[] sector = new byte[source.sector().length()];
        int size = (int) source.headerSize();
        System.arraycopy(source.sector().bytes(0, size), 0, sector, 0, size);
        le(sector, GptHeader.MY_LBA, 8, my);
        le(sector, GptHeader.ALTERNATE_LBA, 8, alternate);
        le(sector, GptHeader.ENTRY_LBA, 8, entries);
        seal(sector, size, source.storedEntriesCrc());
        return sector;
    }

    /** Puts both checksums into a header. */
    public static void seal(byte[] header, int size, long entriesCrc) {
        le(header, GptHeader.ENTRIES_CRC, 4, entriesCrc);
        le(header, GptHeader.CRC, 4, 0);
        CRC32 crc = new CRC32();
        crc.update(header, 0, size);
        le(header, GptHeader.CRC, 4, crc.getValue());
    }

    /** Puts a little-endian number. */
    public static void le(byte[] bytes, int at, int width, long value) {
        for (int i = 0; i < width; i++) {
            bytes[at + i] = (byte) (value >>> 8 * i);
        }
    }
}
