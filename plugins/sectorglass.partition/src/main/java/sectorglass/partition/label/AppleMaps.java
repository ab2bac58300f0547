package sectorglass.partition.label;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Disk;
import sectorglass.disk.MapEntry;
import sectorglass.disk.MapProvider;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.partition.TypeTable;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Apple partition maps. */
@Component(service = MapProvider.class)
@ServiceProvider(value = MapProvider.class, resolution = Resolution.OPTIONAL)
public final class AppleMaps implements MapProvider {

    @Override
    public List<PartitionMap> locate(SectorImage image) {
        AppleMap map = AppleMap.of(image);
        if (map == null) {
            return List.of();
        }
        List<MapEntry> entries = new ArrayList<>();
        List<Structure> structures = new ArrayList<>();
        structures.add(Structure.plain("Apple driver descriptor", "apm_driver_descriptor", 0, 512, Map.of()));
        for (int i = 0; i < map.entries().size(); i++) {
            Window entry = map.entries().get(i);
            structures.add(Structure.plain("Apple map entry " + (i + 1), "apm_entry", entry.start(), 512, Map.of()));
            if (AppleMap.signed(entry) && !AppleMap.free(AppleMap.text(entry, AppleMap.TYPE))) {
                entries.add(entry(map, entry, i + 1, image));
            }
        }
        return List.of(new PartitionMap("apm", map.blockSize() / image.sectorSize(), null, PartitionMap.Copy.PRIMARY, false, null,
                List.copyOf(entries), List.of(where(map)), List.copyOf(structures)));
    }

    private static MapEntry entry(AppleMap map, Window entry, int slot, SectorImage image) {
        String type = AppleMap.text(entry, AppleMap.TYPE);
        String name = AppleMap.text(entry, AppleMap.NAME);
        return new MapEntry(slot, map.range(entry, image), type, TypeTable.APM.name(type), name.isEmpty() ? null : name, null, false,
                MapEntry.Use.PARTITION, entry.range(0, 512), TypeTable.APM.roles(type));
    }

    private static ByteRange where(AppleMap map) {
        return new ByteRange(map.blockSize(), (long) map.blockSize() * map.entries().size());
    }

    @Override
    public void check(PartitionMap found, Disk disk, Checks all) {
        AppleMap map = AppleMap.of(disk.image());
        if (map == null) {
            return;
        }
        Checks out = all.in(where(map));
        out.check("apm.driver", new ByteRange(0, 8), () -> Outcome.test(map.driver().matches(0, "ER")
                && map.driver().u16be(2) == map.blockSize(), map.driver().ascii(0, 2).replaceAll("[^ -~]", ".") + ", blocks of "
                + map.driver().u16be(2), "ER, blocks of " + map.blockSize()));
        long count = map.entries().get(0).u32be(AppleMap.COUNT);
        Mark trouble = null;
        List<Integer> sound = new ArrayList<>();
        for (int i = 0; i < map.entries().size(); i++) {
            Window entry = map.entries().get(i);
            int slot = i + 1;
            Mark mark = out.check("apm.entry", entry.range(0, 8), () -> {
                entry.require(0, 8);
                return Outcome.test(AppleMap.signed(entry) && entry.u32be(AppleMap.COUNT) == count, AppleMap.signed(entry)
                        ? entry.u32be(AppleMap.COUNT) + " entries" : "no signature", "PM, " + count + " entries").with("entry", slot);
            });
            trouble = mark.passed() || trouble != null ? trouble : mark;
            if (AppleMap.signed(entry)) {
                sound.add(i);
                out.report("apm.partition-range", entry.range(AppleMap.FIRST, 8), LabelSlot.range(map.range(entry, disk.image()),
                        disk.image()).with("entry", slot));
            }
        }
        tiling(map, sound, trouble, out);
    }

    /** Entries stand in any order; by address each begins where the one before ends. */
    private static void tiling(AppleMap map, List<Integer> sound, Mark trouble, Checks out) {
        List<Integer> order = new ArrayList<>(sound);
        order.removeIf(i -> map.entries().get(i).u32be(AppleMap.BLOCKS) == 0);
        order.sort(Comparator.comparing((Integer i) -> map.entries().get(i).u32be(AppleMap.FIRST)).thenComparing(i -> i));
        long next = 1;
        for (int i : order) {
            Window entry = map.entries().get(i);
            long first = entry.u32be(AppleMap.FIRST);
            out.report("apm.tiling", entry.range(AppleMap.FIRST, 4), Outcome.test(first == next, first, next).with("entry", i + 1)
                    .because(trouble));
            next = first + entry.u32be(AppleMap.BLOCKS);
        }
    }
}
