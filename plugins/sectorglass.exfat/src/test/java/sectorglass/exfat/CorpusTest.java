package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeInfo;
import sectorglass.testkit.Corpus;
import sectorglass.testvolumes.DiskFile;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/** Volumes that this project did not make. */
class CorpusTest {

    /** Faults by the name of the image: exfatprogs names its test images after them. */
    private static final Map<String, String> FAULTS = Map.of(
            "bad_bitmap", "exfat.bitmap-covers-owners",
            "bad_dentries", "exfat.set-shape",
            "bad_file_size", "exfat.chain-sound",
            "bad_num_chain", "exfat.chain-sound",
            "bs_bad_csum", "exfat.main-checksum",
            "duplicate_clu", "exfat.no-shared-clusters",
            "file_invalid_clus", "exfat.chain-sound",
            "large_file_invalid_clus", "exfat.chain-sound",
            "rename_dot_entry", "exfat.name-length");

    @TempDir
    static Path folder;
    private static final Map<Path, Path> UNPACKED = new HashMap<>();

    private static DiskFile open(Path packed) {
        return DiskFile.open(UNPACKED.computeIfAbsent(packed, p -> Corpus.unpack(p, folder)), 512);
    }

    private static String name(Path packed) {
        return packed.getFileName().toString().replaceFirst("\\.img.*", "");
    }

    @TestFactory
    List<DynamicTest> damagedOnesAreReportedByACheckThatNamesTheFault() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Path packed : Corpus.files("exfat-damaged", ".img.tar.xz")) {
            tests.add(DynamicTest.dynamicTest(name(packed), () -> {
                Findings findings = Volumes.check(open(packed), Level.FULL);
                String listed = Volumes.listed(findings);
                String fault = FAULTS.get(name(packed));
                assertTrue(findings.listed().stream().anyMatch(f -> fault == null ? f.verdict() == Verdict.FAILED : f.check().equals(fault)), listed);
            }));
        }
        return tests;
    }

    @Test
    void theSoundOneGivesItsNamesAndNothingWorseThanCosmetic() {
        Path packed = Corpus.folder("probe-volumes").resolve("exfat.img.xz");
        VolumeInfo info = Volumes.volume(open(packed)).info();
        assertEquals("9C23-8877", info.serial());
        assertEquals("Новый том", info.label());
        Findings findings = Volumes.check(open(packed), Level.FULL);
        for (Finding f : findings.listed()) {
            assertEquals(Severity.COSMETIC, f.severity(), Volumes.listed(findings));
        }
    }
}
