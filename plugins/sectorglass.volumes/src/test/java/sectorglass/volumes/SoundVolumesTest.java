package sectorglass.volumes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;
import sectorglass.testvolumes.Specs;

/** What the stock makers write breaks no rule; kind, label, identity are theirs; the specs decode it in order. */
class SoundVolumesTest {

    @ParameterizedTest
    @CsvSource({"xfs, xfs, TESTVOL", "btrfs, btrfs, TESTVOL", "f2fs, f2fs, TESTVOL", "swap, swap, TESTSWAP", "luks1, luks1,",
        "luks2, luks2,", "iso9660, iso9660, TESTVOL", "udf, udf, TESTVOL", "md-1.0, md, h:tests", "md-1.1, md, h:tests",
        "md-1.2, md, h:tests", "md-0.90, md,"})
    void nothingIsWrong(String made, String kind, String label) {
        try (DiskFile image = DiskFile.of(MadeVolumes.file(made))) {
            Judged judged = Judged.full(image);
            assertEquals("", judged.text());
            assertTrue(judged.findings().counts().passed() > 0);
            assertEquals(kind, judged.volume().info().kind());
            assertEquals(label, judged.volume().info().label());
            List<String> problems = new ArrayList<>();
            assertTrue(Specs.decode(judged.volume(), problems) > 0);
            assertEquals(List.of(), problems);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"xfs", "btrfs", "swap", "luks1", "luks2", "md-1.2", "md-1.0", "md-1.1"})
    void identityIsTheOneAskedFor(String made) {
        try (DiskFile image = DiskFile.of(MadeVolumes.file(made))) {
            assertEquals(MadeVolumes.UUID, Judged.open(image).orElseThrow().info().uuid());
        }
    }

    /** The numbers that mkfs.xfs 6.1 writes on 320 MiB. */
    @Test
    void xfsNumbers() {
        try (DiskFile image = DiskFile.of(MadeVolumes.file("xfs"))) {
            Judged judged = Judged.full(image);
            assertEquals(4096L, judged.volume().info().clusterBytes());
            assertEquals(4L * 20480 * 4096, judged.volume().info().bytes());
            for (String rule : List.of("xfs.sb.crc", "xfs.ag.crc", "xfs.free-sum", "xfs.inode.crc", "xfs.inode.self-number",
                    "xfs.sb.secondary")) {
                assertTrue(judged.passed(rule), rule);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"md-1.0", "md-1.1", "md-1.2", "md-0.90"})
    void mdadmCallsThemCorrect(String made) {
        String text = Tool.run("mdadm", "--examine", MadeVolumes.file(made).toString()).ok();
        assertTrue(text.contains("- correct"), text);
    }
}
