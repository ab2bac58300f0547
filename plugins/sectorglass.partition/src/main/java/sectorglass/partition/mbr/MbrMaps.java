package sectorglass.partition.mbr;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

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
import sectorglass.image.ByteRange;
import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.disk.way.WayStep;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;
import sectorglass.partition.PartitionRules;
import sectorglass.partition.TypeTable;
import sectorglass.partition.gpt.GptDisk;
import sectorglass.partition.repair.EbrRepairs;
import sectorglass.partition.repair.MbrRepairs;
import sectorglass.partition.repair.TableTranslation;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;
import sectorglass.partition.way.MapWay;

/** The MBR and the EBR chains of its extended containers. */
@Component(service = MapProvider.class)
@ServiceProvider(value = MapProvider.class, resolution = Resolution.OPTIONAL)
public final class MbrMaps implements MapProvider {

    @Override
    public List<PartitionMap> locate(SectorImage image) {
        SectorZero zero = SectorZero.of(image);
        if (!zero.isTable()) {
            return List.of();
        }
        List<PartitionMap> maps = new ArrayList<>();
        maps.add(mbr(zero, image));
        int number = 5;
        for (Slot slot : zero.table().ordinary()) {
            if (slot.container()) {
                PartitionMap chain = ebr(EbrChain.walk(image, slot), zero.table(), number, image);
                maps.add(chain);
                number += chain.entries().size();
            }
        }
        return List.copyOf(maps);
    }

    private static PartitionMap mbr(SectorZero zero, SectorImage image) {
        MbrTable table = zero.table();
        Set<SectorRange> mirrored = zero.hybrid() ? new HashSet<>(GptDisk.of(image).ranges(image)) : Set.of();
        List<MapEntry> entries = new ArrayList<>();
        for (Slot slot : table.slots()) {
            if (slot.used()) {
                entries.add(entry(slot, slot.index(), slot.range(), use(slot, image, mirrored), id(table, slot.index())));
            }
        }
        return new PartitionMap("mbr", 0, signature(table), PartitionMap.Copy.PRIMARY, false, remark(zero), List.copyOf(entries),
                List.of(table.where()), List.of(Structure.plain("MBR", "mbr", 0, image.sectorSize(),
                        Map.of("sector_size", (long) image.sectorSize()))));
    }

    private static MapEntry.Use use(Slot slot, SectorImage image, Set<SectorRange> mirrored) {
        if (slot.protective()) {
            return MapEntry.Use.PROTECTIVE;
        }
        if (slot.container()) {
            return MapEntry.Use.CONTAINER;
        }
        if (SectorZero.wholeImage(slot, image)) {
            return MapEntry.Use.WHOLE;
        }
        return mirrored.contains(slot.range()) ? MapEntry.Use.REPEAT : MapEntry.Use.PARTITION;
    }

    private static String remark(SectorZero zero) {
        if (zero.kind() == SectorZero.Kind.AMBIGUOUS) {
            return "ambiguous: this sector is also the boot sector of a " + zero.volume() + " volume";
        }
        if (zero.hybrid()) {
            return "hybrid: ordinary slots stand beside the protective one";
        }
        if (zero.protective() != null) {
            return "protective: keeps others away from the GPT";
        }
        return zero.table().ordinary().isEmpty() ? "no slot is in use" : null;
    }

    private static PartitionMap ebr(EbrChain chain, MbrTable mbr, int firstNumber, SectorImage image) {
        List<MapEntry> entries = new ArrayList<>();
        List<ByteRange> where = new ArrayList<>();
        List<Structure> structures = new ArrayList<>();
        for (EbrChain.Ebr ebr : chain.links()) {
            long at = Math.multiplyExact(ebr.lba(), image.sectorSize());
            where.add(new ByteRange(at, MbrTable.LENGTH));
            structures.add(Structure.plain("EBR at LBA " + ebr.lba(), "ebr", at, image.sectorSize(),
                    Map.of("ebr_lba", ebr.lba(), "container_lba", chain.range().first(), "sector_size", (long) image.sectorSize())));
            for (Slot slot : ebr.data()) {
                int number = firstNumber + entries.size();
                entries.add(entry(slot, number, slot.range(ebr.lba()), MapEntry.Use.PARTITION, id(mbr, number)));
            }
        }
        return new PartitionMap("ebr", chain.range().first(), null, PartitionMap.Copy.PRIMARY, false, null, List.copyOf(entries),
                List.copyOf(where), List.copyOf(structures));
    }

    private static MapEntry entry(Slot slot, int number, SectorRange range, MapEntry.Use use, String uuid) {
        String type = slot.typeCode();
        return new MapEntry(number, range, type, TypeTable.MBR.name(type), null, uuid, slot.active() == 0x80, use, slot.where(),
                TypeTable.MBR.roles(type));
    }

    private static String signature(MbrTable table) {
        return table.diskSignature() == 0 ? null : String.format(Locale.ROOT, "%08x", table.diskSignature());
    }

    private static String id(MbrTable table, int number) {
        String signature = signature(table);
        return signature == null ? null : String.format(Locale.ROOT, "%s-%02x", signature, number);
    }

    @Override
    public void check(PartitionMap map, Disk disk, Checks out) {
        SectorZero zero = SectorZero.of(disk.image());
        if (!zero.isTable()) {
            return;
        }
        if (map.kind().equals("mbr")) {
            new MbrChecks(zero, disk.image()).run(out);
            return;
        }
        zero.table().ordinary().stream().filter(slot -> slot.container() && slot.first() == map.lba()).findFirst()
                .ifPresent(slot -> new EbrChecks(EbrChain.walk(disk.image(), slot), disk.image()).run(out));
    }

    @Override
    public void checkDisk(Disk disk, Checks out) {
        SectorZero zero = SectorZero.of(disk.image());
        if (zero.kind() == SectorZero.Kind.UNREAD) {
            ByteRange signature = new ByteRange(MbrTable.SIGNATURE, 2);
            out.in(new ByteRange(0, MbrTable.LENGTH)).report("mbr.signature", signature, Outcome.unread(zero.missing()));
        }
    }

    @Override
    public List<Repair> propose(Evidence evidence) {
        List<Repair> all = new ArrayList<>(new MbrRepairs(evidence).propose());
        all.addAll(new EbrRepairs(evidence).propose());
        return all;
    }

    @Override
    public Optional<Translation> translate(Disk disk, int sectorSize, Locale locale) {
        SectorZero zero = SectorZero.of(disk.image());
        return !zero.isTable() || zero.kind() != SectorZero.Kind.MBR ? Optional.empty()
                : Optional.of(new TableTranslation(disk.image(), sectorSize, new RepairTexts(PartitionRules.class, locale)).mbr());
    }

    @Override
    public List<WayStep> way(PartitionMap map, MapEntry entry, SectorImage image, Locale locale) {
        return MapWay.of(map, entry, image, locale);
    }

    /** Boot code stays out: a table needs none. */
    @Override
    public boolean copy(PartitionMap map, CopyTarget to, Disguise disguise) {
        int size = to.source().sectorSize();
        for (ByteRange where : map.where()) {
            Window w = to.source().window(where.start(), size);
            byte[] bytes = w.raw(0, size);
            boolean table = map.kind().equals("ebr") || map.remark() == null || !map.remark().startsWith("ambiguous");
            Arrays.fill(bytes, 0, table ? MbrTable.DISK_SIGNATURE : 0, (byte) 0);
            Arrays.fill(bytes, MbrTable.LENGTH, size, (byte) 0);
            for (int i = 0; disguise.numbers() && map.kind().equals("mbr") && map.id() != null && i < 4; i++) {
                bytes[MbrTable.DISK_SIGNATURE + i] = (byte) (disguise.random(MbrTable.DISK_SIGNATURE) >>> 8 * i);
            }
            to.put(w, bytes);
        }
        return true;
    }
}
