package sectorglass.fat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

import org.junit.jupiter.api.DynamicTest;
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

    /** Faults by the name of the image: dosfstools names its test images after them. */
    private static final Map<String, String> FAULTS = Map.of(
            "check-chain_to_free_cluster", "fat.chain-no-free-or-bad",
            "check-chain_too_long", "fat.chain-length-matches-size",
            "check-dot_entries", "fat.dot-entries",
            "check-encryption_with_duplicate_dirent", "fat.name-unique",
            "check-fat12_first_cluster", "fat.media-matches-first-entry",
            "check-fat16_first_cluster", "fat.media-matches-first-entry",
            "check-fat32_first_cluster", "fat.media-matches-first-entry",
            "check-label-different", "fat.label-agrees",
            "check-label-only-root", "fat.label-agrees");

    @TempDir
    static Path folder;
    private static final Map<Path, Path> UNPACKED = new java.util.HashMap<>();

    private static DiskFile open(Path packed) {
        return DiskFile.open(UNPACKED.computeIfAbsent(packed, p -> Corpus.unpack(p, folder)), 512);
    }

    private static String name(Path packed) {
        return packed.getFileName().toString().replaceFirst("\\.img.*", "");
    }

    @TestFactory
    List<DynamicTest> damagedOnesAreReportedByACheckThatNamesTheFault() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Path packed : Corpus.files("fat-damaged", ".img.xz")) {
            tests.add(DynamicTest.dynamicTest(name(packed), () -> {
                Findings findings = Volumes.check(open(packed), Level.FULL);
                String listed = Volumes.listed(findings);
                String fault = FAULTS.get(name(packed));
                assertTrue(findings.listed().stream().anyMatch(f -> fault == null ? f.verdict() == Verdict.FAILED : f.check().equals(fault)), listed);
            }));
        }
        return tests;
    }

    @TestFactory
    List<DynamicTest> soundOnesGiveNothingWorseThanCosmetic() {
        List<DynamicTest> tests = new ArrayList<>();
        List<Path> images = new ArrayList<>(Corpus.files("fat-volumes", ".img.xz"));
        images.addAll(Corpus.files("probe-volumes", ".img.xz").stream().filter(p -> name(p).startsWith("fat")).toList());
        for (Path packed : images) {
            tests.add(DynamicTest.dynamicTest(name(packed), () -> {
                Findings findings = Volumes.check(open(packed), Level.FULL);
                String listed = Volumes.listed(findings);
                for (Finding f : findings.listed()) {
                    // this image was cut in the middle of its volume, whose first sectors are what it was kept for
                    boolean cut = name(packed).equals("fat16_noheads") && f.check().equals("fat.volume-fits-partition");
                    assertTrue(cut || f.verdict() == Verdict.FAILED && f.severity() == Severity.COSMETIC, listed);
                }
            }));
        }
        return tests;
    }

    @TestFactory
    List<DynamicTest> labelAndSerialAreThoseExpected() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Path packed : Corpus.files("probe-volumes", ".img.xz").stream().filter(p -> name(p).startsWith("fat")).toList()) {
            tests.add(DynamicTest.dynamicTest(name(packed), () -> {
                Map<String, String> expected = Files.readAllLines(packed.resolveSibling(name(packed) + ".expected"), StandardCharsets.ISO_8859_1)
                        .stream().filter(l -> l.contains("=")).collect(Collectors.toMap(l -> l.substring(0, l.indexOf('=')),
                                l -> l.substring(l.indexOf('=') + 1)));
                VolumeInfo info = Volumes.volume(open(packed)).info();
                assertEquals(expected.get("ID_FS_UUID"), info.serial());
                assertEquals(expected.get("ID_FS_VERSION").toLowerCase(java.util.Locale.ROOT), info.kind());
                assertEquals(plain(expected.get("ID_FS_LABEL_ENC")), info.label());
                assertEquals(plain(expected.get("ID_FS_LABEL_FATBOOT_ENC")), info.bootLabel());
            }));
        }
        return tests;
    }

    /** Undoes the \xNN of udev; the bytes are of code page 850. */
    private static String plain(String encoded) {
        if (encoded == null) {
            return null;
        }
        java.io.ByteArrayOutputStream bytes = new java.io.ByteArrayOutputStream();
        for (int i = 0; i < encoded.length(); i++) {
            if (encoded.startsWith("\\x", i)) {
                bytes.write(Integer.parseInt(encoded.substring(i + 2, i + 4), 16));
                i += 3;
            } else {
                bytes.write(encoded.charAt(i));
            }
        }
        return bytes.toString(sectorglass.disk.CodePage.current());
    }

    @TestFactory
    List<DynamicTest> labelsOfTheFormatterTests() throws IOException {
        List<DynamicTest> tests = new ArrayList<>();
        for (Path packed : Corpus.files("fat-volumes", ".img.xz")) {
            Path label = packed.resolveSibling(name(packed) + ".label");
            if (Files.exists(label)) {
                String expected = Files.readString(label).strip();
                tests.add(DynamicTest.dynamicTest(name(packed), () -> {
                    VolumeInfo info = Volumes.volume(open(packed)).info();
                    assertEquals(expected, info.label() == null ? "" : info.label());
                }));
            }
        }
        assertFalse(tests.isEmpty());
        return tests;
    }
}
