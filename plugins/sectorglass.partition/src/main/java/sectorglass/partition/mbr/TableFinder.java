package sectorglass.partition.mbr;

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
 * Finds MBRs and EBRs anywhere. An EBR has one partition that starts after it, perhaps a link to the next one, and two empty slots (Linux
 * kernel block/partitions/msdos.c). Starts in an EBR count from the EBR itself, so it tells where its partition lies.
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class TableFinder implements Finder {

    @Override
    public List<String> kinds() {
        return List.of("mbr", "ebr");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("partition table", MbrTable.SIGNATURE, new byte[] {0x55, (byte) 0xAA}, -1));
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        try {
            if (firstByte % image.sectorSize() != 0) {
                return Optional.empty();
            }
            Window sector = image.window(firstByte, MbrTable.LENGTH);
            if (BootSector.kind(sector) != null) {
                return Optional.empty();
            }
            MbrTable table = MbrTable.of(sector, firstByte / image.sectorSize());
            return extended(table) ? Optional.of(ebr(image, table, sector)) : ordinary(table) ? Optional.of(mbr(image, table)) : Optional.empty();
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    private static boolean extended(MbrTable table) {
        List<Slot> slots = table.slots();
        Slot data = slots.get(0);
        Slot link = slots.get(1);
        return data.used() && data.activeLegal() && !data.container() && !data.protective() && data.first() > 0
                && (link.zero() || link.container() && link.first() > 0) && slots.get(2).zero() && slots.get(3).zero()
                && (link.container() || table.lba() > 0);
    }

    /** Four slots that are legal, in use or empty, with one at least in use, none over another. */
    private static boolean ordinary(MbrTable table) {
        List<Slot> used = table.slots().stream().filter(Slot::used).toList();
        if (used.isEmpty() || !table.slots().stream().allMatch(s -> s.zero() || s.used() && s.activeLegal() && s.first() > 0)) {
            return false;
        }
        for (Slot a : used) {
            for (Slot b : used) {
                if (a.index() < b.index() && a.range().overlaps(b.range())) {
                    return false;
                }
            }
        }
        return true;
    }

    private static Sighting ebr(SectorImage image, MbrTable table, Window sector) {
        Slot data = table.slots().get(0);
        Slot link = table.slots().get(1);
        int size = image.sectorSize();
        boolean bare = sector.filled(0, 440, 0);
        boolean inside = data.range(table.lba()).end() <= image.sectors();
        SightingBuilder sighting = new SightingBuilder("ebr", "extended-table", table.start(), MbrTable.LENGTH)
                .format("mbr", Map.of("sector_size", (long) size))
                .copy(Sighting.Copy.PRIMARY).fact("type", data.typeCode()).fact("first", data.first()).fact("sectors", data.count())
                .fact("firstLba", table.lba() + data.first())
                .because(true, Sighting.Reason.FIELDS_AGREE).because(bare, Sighting.Reason.LONG_SIGNATURE)
                .because(!inside, Sighting.Reason.FIELDS_ILLEGAL);
        if (link.container()) {
            sighting.fact("nextFromContainer", link.first()).fact("nextSectors", link.count());
        }
        target(image, table.lba() + data.first(), sighting);
        return sighting.vote("entry-1", (table.lba() + data.first()) * size, data.count() * size, 2).build();
    }

    private static Sighting mbr(SectorImage image, MbrTable table) {
        int size = image.sectorSize();
        SightingBuilder sighting = new SightingBuilder("mbr", "partition-table", table.start(), MbrTable.LENGTH)
                .format("mbr", Map.of("sector_size", (long) size))
                .copy(Sighting.Copy.UNDECIDED).because(true, Sighting.Reason.FIELDS_AGREE)
                .because(table.lba() == 0, Sighting.Reason.KNOWS_ITS_PLACE);
        for (Slot slot : table.slots()) {
            if (slot.used()) {
                sighting.fact("slot" + slot.index(), slot.typeCode() + " " + slot.first() + " " + slot.count());
                if (!slot.container() && !slot.protective()) {
                    sighting.vote("entry-" + slot.index(), slot.first() * size, slot.count() * size, table.lba() == 0 ? 2 : 1);
                }
            }
        }
        return sighting.build();
    }

    /** Whether something that is no zeros stands at the first sector of the partition. */
    private static void target(SectorImage image, long lba, SightingBuilder sighting) {
        if (lba >= image.sectors()) {
            sighting.because(true, Sighting.Reason.TARGET_UNREAD);
            return;
        }
        Window head = image.window(lba * image.sectorSize(), 4096);
        boolean read = head.isRead(0, 4096);
        sighting.because(!read, Sighting.Reason.TARGET_UNREAD).because(read && !head.filled(0, 4096, 0), Sighting.Reason.TARGET_FOUND);
    }
}
