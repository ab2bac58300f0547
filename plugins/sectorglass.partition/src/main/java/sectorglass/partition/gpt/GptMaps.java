package sectorglass.partition.gpt;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Disk;
import sectorglass.disk.Evidence;
import sectorglass.disk.MapEntry;
import sectorglass.disk.MapProvider;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.Structure;
import sectorglass.disk.Translation;
import sectorglass.disk.Witness;
import sectorglass.image.ByteRange;
import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.disk.way.WayStep;
import sectorglass.image.SectorImage;
import sectorglass.partition.PartitionRules;
import sectorglass.partition.TypeTable;
import sectorglass.partition.repair.GptDependents;
import sectorglass.partition.repair.GptRepairs;
import sectorglass.partition.repair.TableTranslation;
import sectorglass.verify.Checks;
import sectorglass.partition.way.MapWay;

/** The copies of the GUID partition table. */
@Component(service = MapProvider.class)
@ServiceProvider(value = MapProvider.class, resolution = Resolution.OPTIONAL)
public final class GptMaps implements MapProvider {
    private static final long LEGACY_BOOT = 4;

    @Override
    public List<PartitionMap> locate(SectorImage image) {
        GptDisk disk = GptDisk.of(image);
        GptHeader authority = disk.authority(image);
        List<PartitionMap> maps = new ArrayList<>();
        for (GptHeader header : headers(disk)) {
            boolean leftover = disk.leftover() || header == disk.stray() || foreign(disk, header);
            boolean listed = leftover || header == authority || header == disk.backup() && header.good() && listsSomething(disk, image);
            maps.add(map(disk, header, leftover, listed ? entries(header, image) : List.of(), image));
        }
        return List.copyOf(maps);
    }

    /** A backup beside a primary without entries must not be taken for the better one. */
    private static boolean listsSomething(GptDisk disk, SectorImage image) {
        return disk.primary() != null && disk.primary().good() && !entries(disk.primary(), image).isEmpty();
    }

    private static List<GptHeader> headers(GptDisk disk) {
        List<GptHeader> all = new ArrayList<>();
        for (GptHeader header : new GptHeader[] {disk.primary(), disk.backup(), disk.stray()}) {
            if (header != null) {
                all.add(header);
            }
        }
        return all;
    }

    /** A backup of another disk's table, or of an earlier one. */
    static boolean foreign(GptDisk disk, GptHeader header) {
        GptHeader primary = disk.primary();
        return header == disk.backup() && primary != null && header.good() && primary.good()
                && !header.diskGuid().equals(primary.diskGuid());
    }

    private static PartitionMap map(GptDisk disk, GptHeader header, boolean leftover, List<MapEntry> entries, SectorImage image) {
        boolean primary = header == disk.primary();
        String copy = primary ? "primary" : "backup";
        List<ByteRange> where = new ArrayList<>(List.of(header.where()));
        List<Structure> structures = new ArrayList<>(List.of(Structure.plain(copy + " GPT header", "gpt_header",
                header.sector().start(), image.sectorSize(), Map.of())));
        if (header.found() && header.entries().readable()) {
            GptEntries array = header.entries();
            where.add(array.where());
            structures.add(Structure.plain(copy + " GPT entries", "gpt_entries", array.firstByte(), (int) array.bytes(),
                    Map.of("entry_count", array.count(), "entry_size", array.size(), "sector_size", (long) image.sectorSize())));
        }
        return new PartitionMap("gpt", header.lba(), header.found() ? header.diskGuid() : null,
                primary ? PartitionMap.Copy.PRIMARY : PartitionMap.Copy.BACKUP, leftover, remark(disk, header, leftover), entries,
                List.copyOf(where), List.copyOf(structures));
    }

    private static String remark(GptDisk disk, GptHeader header, boolean leftover) {
        if (disk.leftover()) {
            return disk.zero().volume() != null ? "leftover: LBA 0 is the boot sector of a " + disk.zero().volume() + " volume"
                    : "leftover: LBA 0 holds an MBR with partitions of its own and no protective slot";
        }
        if (leftover) {
            return "leftover: the primary header does not belong to this copy";
        }
        if (!header.read()) {
            return "not read";
        }
        if (!header.found()) {
            return "expected here, but no header stands here";
        }
        return header.good() ? null : "damaged header";
    }

    static List<MapEntry> entries(GptHeader header, SectorImage image) {
        if (!header.found() || !header.entries().readable()) {
            return List.of();
        }
        return header.entries().list(image).stream().filter(GptEntry::used).map(GptMaps::entry).toList();
    }

    private static MapEntry entry(GptEntry entry) {
        String type = entry.type();
        String name = entry.name();
        String unique = entry.unique();
        return new MapEntry(entry.index(), entry.range(), type, TypeTable.GPT.name(type), name.isEmpty() ? null : name,
                unique.equals(Guid.ZERO) ? null : unique, (entry.attributes() & LEGACY_BOOT) != 0, MapEntry.Use.PARTITION,
                entry.where(0, entry.bytes().length()), TypeTable.GPT.roles(type));
    }

    @Override
    public void check(PartitionMap map, Disk disk, Checks out) {
        GptDisk gpt = GptDisk.of(disk.image());
        for (GptHeader header : headers(gpt)) {
            if (header.lba() == map.lba()) {
                new HeaderChecks(gpt, header, map.leftover(), disk.image(), out).run();
            }
        }
    }

    @Override
    public void checkDisk(Disk disk, Checks out) {
        new DiskChecks(GptDisk.of(disk.image()), disk, out).run();
    }

    @Override
    public List<Witness> witnesses(PartitionMap map, SectorImage image) {
        GptHeader header = GptHeader.read(image, map.lba());
        if (!header.sound() || header.myLba() < 0 || header.myLba() > Long.MAX_VALUE / image.sectorSize()) {
            return List.of();
        }
        return List.of(new Witness(header.sector().start(), header.myLba() * image.sectorSize(), "GPT header at LBA " + map.lba()));
    }

    @Override
    public List<Repair> propose(Evidence evidence) {
        return new GptRepairs(evidence).propose();
    }

    @Override
    public List<Repair.Change> dependents(ByteRange changed, SectorImage image, Locale locale) {
        return GptDependents.of(changed, image, locale);
    }

    @Override
    public Optional<Translation> translate(Disk disk, int sectorSize, Locale locale) {
        GptDisk gpt = GptDisk.of(disk.image());
        return gpt.leftover() || !gpt.any() ? Optional.empty()
                : Optional.of(new TableTranslation(disk.image(), sectorSize, new RepairTexts(PartitionRules.class, locale)).gpt(gpt));
    }

    @Override
    public List<WayStep> way(PartitionMap map, MapEntry entry, SectorImage image, Locale locale) {
        return MapWay.of(map, entry, image, locale);
    }

    @Override
    public boolean copy(PartitionMap map, CopyTarget to, Disguise disguise) {
        new GptCopy(to, disguise).copy(GptHeader.read(to.source(), map.lba()));
        return true;
    }
}
