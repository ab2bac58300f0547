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

/** Sun labels in sector 0, big endian. Offsets in bytes (util-linux include/pt-sun.h). */
@Component(service = MapProvider.class)
@ServiceProvider(value = MapProvider.class, resolution = Resolution.OPTIONAL)
public final class SunMaps implements MapProvider {
    private static final int LENGTH = 512;
    private static final int VERSION = 128;
    private static final int TAGS = 142;
    private static final int SANITY = 188;
    private static final int HEADS = 436;
    private static final int PER_TRACK = 438;
    private static final int SLOTS = 444;
    private static final int SLOT_COUNT = 8;
    private static final int MAGIC = 508;
    private static final int CHECKSUM = 510;
    private static final int WHOLE_TAG = 5;
    private static final long SANE = 0x600DDEEEL;

    @Override
    public List<PartitionMap> locate(SectorImage image) {
        Window label = label(image);
        return label == null ? List.of() : List.of(new PartitionMap("sun", 0, null, PartitionMap.Copy.PRIMARY, false, null,
                List.copyOf(entries(label)), List.of(label.range()), List.of(Structure.plain("Sun label", "sun_label", 0, LENGTH, Map.of()))));
    }

    private static Window label(SectorImage image) {
        Window window = image.window(0, LENGTH);
        boolean known = window.isRead(0, LENGTH) && window.u16be(MAGIC) == 0xDABE && (xor(window) == 0
                || window.u32be(VERSION) == 1 || window.u32be(SANITY) == SANE);
        return known ? window : null;
    }

    private static boolean tagged(Window label) {
        return label.u32be(VERSION) == 1 && label.u32be(SANITY) == SANE;
    }

    private static int xor(Window label) {
        int all = 0;
        for (int at = 0; at < LENGTH; at += 2) {
            all ^= label.u16be(at);
        }
        return all;
    }

    private static List<MapEntry> entries(Window label) {
        List<MapEntry> entries = new ArrayList<>();
        long perCylinder = (long) label.u16be(HEADS) * label.u16be(PER_TRACK);
        for (int i = 0; i < SLOT_COUNT; i++) {
            int at = SLOTS + 8 * i;
            long sectors = label.u32be(at + 4);
            int tag = tagged(label) ? label.u16be(TAGS + 4 * i) : i == 2 ? WHOLE_TAG : 0;
            if (sectors == 0 || tag == 0 && tagged(label)) {
                continue;
            }
            String code = String.format(Locale.ROOT, tag > 0xFF ? "%04x" : "%02x", tag);
            entries.add(new MapEntry(i + 1, new SectorRange(label.u32be(at) * perCylinder, sectors), code, TypeTable.SUN.name(code), null,
                    null, false, tag == WHOLE_TAG ? MapEntry.Use.WHOLE : MapEntry.Use.PARTITION, label.range(at, 8),
                    TypeTable.SUN.roles(code)));
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
        Mark xor = out.report("sun.label.xor", label.range(CHECKSUM, 2), Outcome.test(xor(label) == 0,
                String.format(Locale.ROOT, "%04X", xor(label)), "0000"));
        out.report("sun.label.vtoc", label.range(VERSION, 4), Outcome.test(tagged(label), String.format(Locale.ROOT,
                "version %d, sanity %08X", label.u32be(VERSION), label.u32be(SANITY)), "version 1, sanity 600DDEEE"));
        LabelSlot.check("sun", entries(label), disk.image(), xor.failed() ? xor : null, out);
    }
}
