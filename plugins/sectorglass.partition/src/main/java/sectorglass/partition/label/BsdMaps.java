package sectorglass.partition.label;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Disk;
import sectorglass.disk.MapEntry;
import sectorglass.disk.MapProvider;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.Structure;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.partition.gpt.GptMaps;
import sectorglass.partition.mbr.MbrMaps;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** BSD disklabels: of a whole disk, and nested in slices of an MBR or in a GPT entry made for one. */
@Component(service = MapProvider.class)
@ServiceProvider(value = MapProvider.class, resolution = Resolution.OPTIONAL)
public final class BsdMaps implements MapProvider {
    private static final Set<String> SLICES = Set.of("a5", "a6", "a9", "516e7cb4-6ecf-11d6-8ff8-00022d09712b");
    /** Sector of the slice and byte in it where a label may stand: x86; alpha; other machines. */
    private static final int[][] PLACES = {{1, 0}, {0, 64}, {0, 128}};

    @Override
    public List<PartitionMap> locate(SectorImage image) {
        List<PartitionMap> maps = new ArrayList<>();
        for (BsdLabel label : labels(image)) {
            maps.add(new PartitionMap("bsd", label.bytes().lba(0), null, PartitionMap.Copy.PRIMARY, false,
                    label.nested() ? "in the slice that starts at LBA " + label.slice().first() : null, List.copyOf(label.entries()),
                    List.of(label.where()), List.of(Structure.plain("BSD label", "bsd_label", label.bytes().start(), BsdLabel.LENGTH, Map.of()))));
        }
        return List.copyOf(maps);
    }

    private static List<BsdLabel> labels(SectorImage image) {
        List<BsdLabel> found = new ArrayList<>();
        add(image, image.all(), false, found);
        List<PartitionMap> outer = new ArrayList<>(new MbrMaps().locate(image));
        new GptMaps().locate(image).stream().filter(map -> !map.leftover()).forEach(outer::add);
        for (PartitionMap map : outer) {
            for (MapEntry entry : map.entries()) {
                if (SLICES.contains(entry.type()) && entry.range().count() > 0) {
                    add(image, entry.range(), true, found);
                }
            }
        }
        return found;
    }

    private static void add(SectorImage image, SectorRange slice, boolean nested, List<BsdLabel> found) {
        for (int[] place : PLACES) {
            long at = (slice.first() + place[0]) * image.sectorSize() + place[1];
            BsdLabel label = BsdLabel.at(image, at, slice, nested);
            if (label != null && found.stream().noneMatch(f -> f.bytes().start() == at)) {
                found.add(label);
                return;
            }
        }
    }

    @Override
    public void check(PartitionMap map, Disk disk, Checks all) {
        labels(disk.image()).stream().filter(l -> l.where().equals(map.where().get(0))).findFirst()
                .ifPresent(label -> check(label, disk.image(), all.in(label.where())));
    }

    private static void check(BsdLabel label, SectorImage image, Checks out) {
        out.report("bsd.label.magic", label.bytes().range(BsdLabel.MAGIC_2, 4), Outcome.test(label.magicTwice(),
                String.format(Locale.ROOT, "%08X", label.bytes().u32le(BsdLabel.MAGIC_2)), "82564557"));
        Mark count = out.report("bsd.label.count", label.bytes().range(BsdLabel.COUNT, 2),
                Outcome.test(label.countLegal(), label.count(), "1 to " + BsdLabel.MAX_SLOTS));
        Mark xor = out.report("bsd.label.xor", label.bytes().range(BsdLabel.CHECKSUM, 2), count.failed()
                ? Outcome.undecided("the number of partitions is illegal").because(count)
                : Outcome.test(label.xor() == 0, String.format(Locale.ROOT, "%04X", label.xor()), "0000"));
        LabelSlot.check("bsd", label.entries(), image, xor.passed() ? null : xor, out);
    }
}
