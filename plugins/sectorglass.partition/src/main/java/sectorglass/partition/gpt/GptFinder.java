package sectorglass.partition.gpt;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Finder;
import sectorglass.disk.Sighting;
import sectorglass.disk.SightingBuilder;
import sectorglass.disk.Signature;
import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** Finds GPT headers anywhere, of any sector size (UEFI 2.10, section 5.3.2): MyLBA and its place tell which size, and where the disk began. */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class GptFinder implements Finder {
    private static final int[] SECTOR_SIZES = {512, 4096, 1024, 2048};
    private static final long MOST_LBA = 1L << 50;

    @Override
    public List<String> kinds() {
        return List.of("gpt");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("GPT header", 0, "EFI PART".getBytes(StandardCharsets.US_ASCII), -1));
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        try {
            return Optional.of(header(image, firstByte));
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    private static Sighting header(SectorImage image, long at) {
        Window sector = image.window(at, 512);
        long size = sector.u32le(GptHeader.HEADER_SIZE);
        Window whole = size > 512 && size <= 4096 ? image.window(at, 4096) : sector;
        GptHeader header = new GptHeader(at / image.sectorSize(), whole);
        boolean sound = header.sound();
        long mine = header.myLba();
        long other = header.alternateLba();
        boolean legal = mine > 0 && other > 0 && mine < MOST_LBA && other < MOST_LBA && mine != other
                && Long.compareUnsigned(header.firstUsable(), header.lastUsable()) <= 0;
        int sectorBytes = sectorBytes(image, header, at);
        boolean home = sectorBytes > 0 && mine * sectorBytes == at;
        SightingBuilder sighting = new SightingBuilder("gpt", "header", at, 512).format("gpt_header", Map.of())
                .copy(!legal ? Sighting.Copy.UNDECIDED : mine < other ? Sighting.Copy.PRIMARY : Sighting.Copy.BACKUP)
                .fact("myLba", mine).fact("alternateLba", other).fact("firstUsable", header.firstUsable()).fact("lastUsable", header.lastUsable())
                .fact("entryLba", whole.u64le(GptHeader.ENTRY_LBA)).fact("entryCount", whole.u32le(GptHeader.ENTRY_COUNT))
                .fact("entrySize", whole.u32le(GptHeader.ENTRY_SIZE)).fact("sectorSize", sectorBytes == 0 ? null : (long) sectorBytes)
                .identity(header.diskGuid())
                .tried(sound, Sighting.Reason.CHECKSUM_HOLDS, Sighting.Reason.CHECKSUM_FAILS, "gpt.header.crc32", at + GptHeader.CRC)
                .because(legal, Sighting.Reason.FIELDS_AGREE).because(!legal, Sighting.Reason.FIELDS_ILLEGAL)
                .because(home, Sighting.Reason.KNOWS_ITS_PLACE).because(true, Sighting.Reason.LONG_SIGNATURE);
        if (sectorBytes > 0) {
            entries(image, header, at, mine, sectorBytes, sighting);
        }
        return sighting.build();
    }

    /** The sector size that puts the header at its own place; else the one that lets its array stand beside it; else 0. */
    private static int sectorBytes(SectorImage image, GptHeader header, long at) {
        long mine = header.myLba();
        if (mine <= 0 || mine > MOST_LBA / 4096) {
            return 0;
        }
        for (int size : SECTOR_SIZES) {
            if (mine * size == at) {
                return size;
            }
        }
        for (int size : SECTOR_SIZES) {
            if (Boolean.TRUE.equals(arrayHolds(image, header, at, mine, size))) {
                return size;
            }
        }
        return 0;
    }

    /** Whether the checksum of the array holds with sectors of that size; null where it cannot be told. */
    private static Boolean arrayHolds(SectorImage image, GptHeader header, long at, long mine, int sectorBytes) {
        GptEntries entries = moved(header, at, mine, sectorBytes);
        if (entries == null) {
            return null;
        }
        try {
            return entries.crc(image) == header.storedEntriesCrc();
        } catch (UnreadException e) {
            return null;
        }
    }

    /** The entry array counted from where the header stands, so that it is found when the start of the disk is missing. */
    private static GptEntries moved(GptHeader header, long at, long mine, int sectorBytes) {
        GptEntries named = header.entries();
        long lba = at / sectorBytes + (named.lba() - mine);
        if (!named.readable() || Math.abs(named.lba() - mine) > MOST_LBA / 4096 || lba < 0) {
            return null;
        }
        return new GptEntries(lba, named.count(), named.size(), sectorBytes);
    }

    private static void entries(SectorImage image, GptHeader header, long at, long mine, int sectorBytes, SightingBuilder sighting) {
        Boolean holds = arrayHolds(image, header, at, mine, sectorBytes);
        sighting.tried(holds, Sighting.Reason.TARGET_FOUND, Sighting.Reason.TARGET_MISSING, "gpt.entries.crc32", at + GptHeader.ENTRIES_CRC)
                .because(holds == null, Sighting.Reason.TARGET_UNREAD);
        long diskStart = at - mine * sectorBytes;
        GptEntries array = Boolean.TRUE.equals(holds) ? moved(header, at, mine, sectorBytes) : null;
        if (array != null) {
            for (GptEntry entry : array.list(image)) {
                if (entry.used() && entry.range().count() > 0) {
                    sighting.vote("entry-" + entry.index(), diskStart + entry.range().first() * sectorBytes, entry.range().count() * sectorBytes, 2);
                }
            }
        }
    }
}
