package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

import com.fasterxml.jackson.databind.JsonNode;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.practice.disk.DiskKey;
import sectorglass.practice.disk.Grade;
import sectorglass.practice.disk.Grading;
import sectorglass.practice.disk.KeyFault;
import sectorglass.practice.disk.Place;
import sectorglass.practice.disk.PracticeMaker;

/** Practice disks: every kind of fault is found by its check at its place, several at once; the same seed gives the same bytes; the key is right. */
class PracticeDisksTest {
    @TempDir
    static Path folder;
    private static PracticeMaker maker;

    @BeforeAll
    static void prepare() {
        maker = new PracticeMaker(Verdicts.BOOK);
    }

    /** The structures that a kind lies in: two kinds of different families can stand on one disk. */
    private static String family(String kind) {
        String first = kind.substring(0, kind.indexOf('.'));
        return first.equals("mbr") || first.equals("gpt") ? "map" : first.equals("fat32") ? "fat" : first;
    }

    /** All kinds, those of different families together, so that each disk has up to five. */
    static List<List<String>> groups() {
        Map<String, List<String>> families = new TreeMap<>();
        PracticeMaker.kinds().keySet().forEach(kind -> families.computeIfAbsent(family(kind), f -> new ArrayList<>()).add(kind));
        List<List<String>> groups = new ArrayList<>();
        // needs a disk whose last slot is no container, so one with fewer volumes
        groups.add(List.of("mbr.partition-range", "ntfs.boot.backup-equal"));
        families.get("map").remove("mbr.partition-range");
        while (families.values().stream().anyMatch(kinds -> !kinds.isEmpty())) {
            List<String> group = new ArrayList<>();
            families.values().stream().filter(kinds -> !kinds.isEmpty()).forEach(kinds -> group.add(kinds.remove(0)));
            groups.add(group);
        }
        return groups;
    }

    @TestFactory
    List<DynamicTest> everyKindIsFoundByItsCheckAtItsPlace() {
        List<DynamicTest> tests = new ArrayList<>();
        for (List<String> kinds : groups()) {
            tests.add(DynamicTest.dynamicTest(String.join(", ", kinds), () -> {
                Path image = folder.resolve("kinds.img");
                DiskKey key = maker.make(7, kinds, image);
                assertEquals(kinds.size(), key.faults().size());
                JsonNode findings = Cli.run("verify", image, "--full", "--json").json().get("findings");
                for (KeyFault fault : key.faults()) {
                    assertTrue(names(findings, fault), fault.kind() + " is not found: " + findings);
                    assertFalse(fault.means().isBlank() || fault.source().isBlank(), fault.kind());
                }
                assertStandsThere(image, key);
            }));
        }
        return tests;
    }

    /** The finding begins where the key says that the check points, and that is in the sector of the changed bytes or the key knows why not. */
    private static boolean names(JsonNode findings, KeyFault fault) {
        for (JsonNode finding : findings) {
            if (finding.get("check").asText().equals(fault.check()) && finding.get("verdict").asText().equals("failed")
                    && finding.get("firstByte").asLong() == fault.seenByte()) {
                return true;
            }
        }
        return false;
    }

    private static void assertStandsThere(Path image, DiskKey key) throws IOException {
        try (var file = new java.io.RandomAccessFile(image.toFile(), "r")) {
            for (KeyFault fault : key.faults()) {
                for (Place place : fault.places()) {
                    byte[] there = new byte[place.wrong().length];
                    file.seek(place.firstByte());
                    file.readFully(there);
                    assertEquals(List.of(hex(place.wrong())), List.of(hex(there)), fault.kind());
                }
            }
        }
    }

    private static String hex(byte[] bytes) {
        return java.util.HexFormat.of().formatHex(bytes);
    }

    @Test
    void thereAreFortyKindsAndMoreOverAllFamilies() {
        Map<String, Integer> kinds = PracticeMaker.kinds();
        assertTrue(kinds.size() >= 100, kinds.size() + " kinds");
        for (String family : List.of("mbr.", "mbr.ebr", "gpt.", "ntfs.", "fat.", "fat32.", "exfat.", "ext.")) {
            assertTrue(kinds.keySet().stream().anyMatch(k -> k.startsWith(family)), family);
        }
        for (int level = 1; level <= PracticeMaker.LEVELS; level++) {
            assertTrue(kinds.containsValue(level), "nothing begins at level " + level);
        }
    }

    @Test
    void theSameSeedGivesTheSameDiskWhateverTheMachineIsSetTo() throws IOException {
        Locale before = Locale.getDefault();
        var zone = java.util.TimeZone.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("tr"));
            java.util.TimeZone.setDefault(java.util.TimeZone.getTimeZone("Pacific/Apia"));
            List<String> sums = new ArrayList<>();
            for (int level : new int[] {1, 3, 5}) {
                sums.add(maker.make(20260, level, 0, folder.resolve("same.img")).sha256());
            }
            assertEquals(List.of("09a68c7577d72321213498a071f32414848d40d05646a0261f9278c04dbd5b82",
                    "0bceb0f694786b0d35c3eaecb67dbc2f412dbbf0a1992b58ff0d885e3ecd1ca8", "bd8ff7c210419f83ef605ec54f79ace8a20499ab0becfe0a3799f619f82bb1a4"), sums);
        } finally {
            Locale.setDefault(before);
            java.util.TimeZone.setDefault(zone);
        }
    }

    @TestFactory
    List<DynamicTest> randomDisksHaveAsManyFaultsAsTheirLevelAllows() {
        int[][] counts = {{1, 1}, {1, 2}, {1, 3}, {2, 4}, {0, 5}};
        List<DynamicTest> tests = new ArrayList<>();
        for (int i = 0; i < 15; i++) {
            int level = 1 + i % 5;
            long seed = 31L * i + 4;
            tests.add(DynamicTest.dynamicTest("level " + level + " seed " + seed, () -> {
                DiskKey key = maker.make(seed, level, 0, folder.resolve("random.img"));
                assertTrue(key.faults().size() >= counts[level - 1][0] && key.faults().size() <= counts[level - 1][1], key.faults().toString());
                JsonNode findings = Cli.run("verify", folder.resolve("random.img"), "--full", "--json").json().get("findings");
                for (JsonNode finding : findings) {
                    boolean known = key.faults().stream().anyMatch(f -> f.check().equals(finding.get("check").asText()))
                            || key.also().stream().anyMatch(a -> a.check().equals(finding.get("check").asText()) && a.firstByte() == finding.get("firstByte").asLong());
                    assertTrue(known, "verify reports what the key does not know: " + finding);
                }
                Grade grade = new Grading(key).grade(new Grading(key).solution());
                assertTrue(grade.perfect(), grade.toString());
            }));
        }
        return tests;
    }
}
