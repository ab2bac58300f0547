package sectorglass.exfat;

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

/**
 * Finds exFAT boot regions, main or backup, and judges them by their checksum (Microsoft exFAT specification, sections 3.1 to 3.4). Which
 * of the two a region is: the FAT stands where one of the two starts puts it, PartitionOffset names it, the other region is beside it.
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class ExfatFinder implements Finder {

    @Override
    public List<String> kinds() {
        return List.of("exfat");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("exFAT boot sector", BootSector.NAME, "EXFAT   ".getBytes(StandardCharsets.ISO_8859_1), -1));
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        try {
            return region(image, firstByte);
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    private static Optional<Sighting> region(SectorImage image, long at) {
        BootSector boot = new BootSector(image.window(at, BootSector.SIZE));
        Geometry geometry = Geometry.of(boot);
        if (geometry == null) {
            return Optional.empty();
        }
        int size = geometry.sectorBytes();
        BootRegion region = new BootRegion(BootRegion.MAIN, size, image.window(at, BootRegion.SECTORS * size));
        Boolean holds = region.window().isRead(0, region.window().length()) ? region.sound() : null;
        boolean agree = Recognition.plausible(boot, geometry);
        long before = (long) BootRegion.BACKUP * size;
        long hidden = boot.partitionOffset() > 0 && boot.partitionOffset() < 1L << 50 ? boot.partitionOffset() * size : -1;
        Boolean tableFirst = table(image, at, geometry);
        Boolean tableSecond = at < before ? Boolean.FALSE : table(image, at - before, geometry);
        int lead = Boolean.compare(Boolean.TRUE.equals(tableFirst), Boolean.TRUE.equals(tableSecond));
        lead = lead != 0 ? lead : Boolean.compare(hidden == at, hidden == at - before);
        lead = lead != 0 ? lead : Boolean.compare(named(image, at + before), at >= before && named(image, at - before));
        long start = lead < 0 ? at - before : at;
        Boolean table = lead < 0 ? tableSecond : tableFirst;
        SightingBuilder sighting = new SightingBuilder("exfat", "boot-region", at, BootRegion.SECTORS * size)
                .format("exfat_boot_sector", Map.of())
                .copy(lead > 0 ? Sighting.Copy.PRIMARY : lead < 0 ? Sighting.Copy.BACKUP : Sighting.Copy.UNDECIDED)
                .fact("bytesPerSector", (long) size).fact("clusterBytes", (long) geometry.clusterBytes())
                .fact("partitionOffset", boot.partitionOffset()).fact("volumeLength", geometry.volumeLength())
                .fact("fatOffset", geometry.fatOffset()).fact("clusterHeapOffset", geometry.heapOffset()).identity(boot.serial())
                .tried(holds, Sighting.Reason.CHECKSUM_HOLDS, Sighting.Reason.CHECKSUM_FAILS, "exfat.main-checksum", at + 11L * size)
                .because(agree, Sighting.Reason.FIELDS_AGREE).because(!agree, Sighting.Reason.FIELDS_ILLEGAL)
                .because(true, Sighting.Reason.LONG_SIGNATURE).because(hidden == start, Sighting.Reason.KNOWS_ITS_PLACE)
                .because(table == null, Sighting.Reason.TARGET_UNREAD).because(Boolean.TRUE.equals(table), Sighting.Reason.TARGET_FOUND)
                .because(Boolean.FALSE.equals(table), Sighting.Reason.TARGET_MISSING);
        int weight = Boolean.TRUE.equals(table) ? 3 : lead != 0 ? 2 : 1;
        if (lead >= 0) {
            sighting.vote("own-place", at, geometry.bytes(), weight);
        }
        if (lead <= 0 && at >= before) {
            sighting.vote("backup-place", at - before, geometry.bytes(), weight);
        }
        return Optional.of(sighting.build());
    }

    /** Whether the first FAT stands where a start puts it: F8 FF FF FF FF FF FF FF (section 4.1); null where it was not read. */
    private static Boolean table(SectorImage image, long start, Geometry geometry) {
        long at = start + geometry.fatByte();
        if (at < 0 || at > image.bytes() - 8) {
            return null;
        }
        Window head = image.window(at, 8);
        return head.isRead(0, 8) ? head.matches(0, 0xF8, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF) : null;
    }

    private static boolean named(SectorImage image, long at) {
        Window head = image.window(at, BootSector.SIZE);
        return head.isRead(0, BootSector.SIZE) && new BootSector(head).named();
    }
}
