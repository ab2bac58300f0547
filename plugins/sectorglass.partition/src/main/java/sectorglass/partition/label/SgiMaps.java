package sectorglass.partition.label;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

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
import sectorglass.image.Window;
import sectorglass.partition.TypeTable;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** SGI labels in sector 0, big endian. Offsets in bytes (util-linux include/pt-sgi.h). */
@Component(service = MapProvider.class)
@ServiceProvider(value = MapProvider.class, resolution = Resolution.OPTIONAL)
public final class SgiMaps implements MapProvider {
    private static final int LENGTH = 512;
    private static final int SLOTS = 312;
    private static final int SLOT = 12;
    private static final int SLOT_COUNT = 16;
    private static final int CHECKSUM = 504;
    private static final int HEADER_TYPE = 0;
    private static final int WHOLE_TYPE = 6;

    @Override
    public List<PartitionMap> locate(SectorImage image) {
        Window label = label(image);
        return label == null ? List.of() : List.of(new PartitionMap("sgi", 0, null, PartitionMap.Copy.PRIMARY, false, null,
                List.copyOf(entries(label)), List.of(label.range()), List.of(Structure.plain("SGI label", "sgi_label", 0, LENGTH, Map.of()))));
    }

    private static Window label(SectorImage image) {
        Window window = image.window(0, LENGTH);
        return window.isRead(0, LENGTH) && window.matches(0, 0x0B, 0xE5, 0xA9, 0x41) ? window : null;
    }

    /** Sum of all big-endian words modulo 2^32, the checksum among them; 0 in a sound label. */
    private static long sum(Window label) {
        long sum = 0;
        for (int at = 0; at < LENGTH; at += 4) {
            sum += label.u32be(at);
        }
        return sum & 0xFFFFFFFFL;
    }

    private static List<MapEntry> entries(Window label) {
        List<MapEntry> entries = new ArrayList<>();
        for (int i = 0; i < SLOT_COUNT; i++) {
            int at = SLOTS + SLOT * i;
            long sectors = label.u32be(at);
            if (sectors == 0) {
                continue;
            }
            long type = label.u32be(at + 8);
            String code = String.format(Locale.ROOT, type > 0xFF ? "%08x" : "%02x", type);
            entries.add(new MapEntry(i + 1, new SectorRange(label.u32be(at + 4), sectors), code, TypeTable.SGI.name(code), null, null, false,
                    type == WHOLE_TYPE ? MapEntry.Use.WHOLE : MapEntry.Use.PARTITION, label.range(at, SLOT), TypeTable.SGI.roles(code)));
        }
        return entries;
    }

    @Override
    public void check(PartitionMap map, Disk disk, Checks all) {
        Window label = label(disk.image());
        if (label == null) {
            return;
        }
        Checks out = all.in(label.range());
        Mark sum = out.report("sgi.label.sum", label.range(CHECKSUM, 4), Outcome.test(sum(label) == 0,
                String.format(Locale.ROOT, "%08X", sum(label)), "00000000"));
        String header = String.format(Locale.ROOT, "%02x", HEADER_TYPE);
        List<MapEntry> judged = entries(label).stream().filter(entry -> !entry.type().equals(header)).toList();
        LabelSlot.check("sgi", judged, disk.image(), sum.failed() ? sum : null, out);
    }
}
