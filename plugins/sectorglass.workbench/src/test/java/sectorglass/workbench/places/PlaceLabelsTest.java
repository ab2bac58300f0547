package sectorglass.workbench.places;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.junit.jupiter.api.Test;

import sectorglass.disk.Disk;
import sectorglass.disk.MapEntry;
import sectorglass.disk.Partition;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.model.Zeros;

class PlaceLabelsTest {
    private static final long PLACE = 2048 * 512L + 0x1C0;

    private static OpenDisk open() {
        MapEntry entry = new MapEntry(1, new SectorRange(2048, 1000), "07", null, null, null, false, MapEntry.Use.PARTITION,
                new ByteRange(446, 16), List.of());
        return OpenDisk.surveyed(null, new Disk(new Zeros(100_000 * 512L), List.of(), List.of(new Partition(3, 0, entry, List.of(), null)), null),
                List.of());
    }

    private static String label(Offsets offsets, boolean hex, long structure) {
        PlaceLabels labels = new PlaceLabels(open(), offsets, hex);
        String label = labels.of(PLACE, structure);
        assertTrue(label.length() <= labels.longest(), label);
        return label;
    }

    @Test
    void aPlaceIsWrittenFromEveryStart() {
        assertEquals("LBA 2 048 \u00B7 1C0", label(Offsets.LBA, true, -1));
        assertEquals("LBA 2 048 \u00B7 448", label(Offsets.LBA, false, -1));
        assertEquals("01001C0", label(Offsets.IMAGE, true, -1));
        assertEquals("1 049 024", label(Offsets.IMAGE, false, -1));
        assertEquals("3 \u00B7 1C0", label(Offsets.PARTITION, true, -1));
        assertEquals("3 \u00B7 448", label(Offsets.PARTITION, false, -1));
        assertEquals("0C0", label(Offsets.STRUCTURE, true, PLACE - 0xC0));
        assertEquals("192", label(Offsets.STRUCTURE, false, PLACE - 0xC0));
    }

    @Test
    void whereThereIsNoSuchStartADashStands() {
        assertEquals("\u2013", new PlaceLabels(open(), Offsets.PARTITION, true).of(0, -1));
        assertEquals("\u2013", label(Offsets.STRUCTURE, true, -1));
    }
}
