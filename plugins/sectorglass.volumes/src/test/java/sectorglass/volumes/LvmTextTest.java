package sectorglass.volumes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;

import java.time.Duration;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;

/** Metadata texts of volume groups, hostile ones among them. */
class LvmTextTest {

    @Test
    void sectionsValuesAndLists() {
        Map<String, Object> all = LvmText.parse("# made by a test\nvg {\nid = \"a\\\"b\"\nseqno = 3\nflags = []\nplaces = [\"pv0\", 4]\n}\nversion = 1\n");
        assertEquals(Map.of("id", "a\"b", "seqno", 3L, "flags", List.of(), "places", List.of("pv0", 4L)), all.get("vg"));
        assertEquals(1L, all.get("version"));
    }

    @Test
    void listsInListsAndSectionsInSectionsAreBounded() {
        for (String part : List.of("[", "a {\n", "a = [\n", "\"", "{")) {
            assertThrows(IllegalArgumentException.class, () -> LvmText.parse("a = " + part.repeat(200_000)));
            assertThrows(IllegalArgumentException.class, () -> LvmText.parse(part.repeat(200_000)));
        }
        assertNull(LvmGroup.of("a = " + "[".repeat(1_000_000)));
    }

    /** Six volumes, each of a hundred areas of the next: a trillion areas if they were all followed. */
    @Test
    void volumesInVolumesAreBounded() {
        StringBuilder volumes = new StringBuilder();
        for (int i = 0; i < 6; i++) {
            String areas = ("\"" + (i < 5 ? "lv" + (i + 1) : "pv0") + "\", 0,\n").repeat(100);
            volumes.append("lv").append(i).append(" {\nid = \"x\"\nstatus = [\"VISIBLE\"]\nsegment_count = 1\nsegment1 {\nstart_extent = 0\nextent_count = 100\n"
                    + "type = \"raid1\"\nstripes = [\n").append(areas, 0, areas.length() - 2).append("\n]\n}\n}\n");
        }
        LvmGroup group = LvmGroup.of("vg {\nid = \"g\"\nseqno = 1\nextent_size = 8\nphysical_volumes {\npv0 {\nid = \"p\"\npe_start = 8\npe_count = 9\n}\n}\n"
                + "logical_volumes {\n" + volumes + "}\n}\n");
        assertNotNull(group);
        assertEquals(6, group.volumes().size());
        assertTimeout(Duration.ofSeconds(20), () -> new LvmSet(group, sectorglass.testvolumes.DiskFile.of(new byte[1 << 16])).volumes());
    }
}
