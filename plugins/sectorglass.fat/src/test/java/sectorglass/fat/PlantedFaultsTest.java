package sectorglass.fat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

import sectorglass.disk.Level;
import sectorglass.testvolumes.DiskFile;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;

/**
 * One fault planted into a sound volume: it is found at its byte, and nothing but it is listed. The faults are those that fsck.fat 4.2 was
 * tried on, with the ones that it misses. Places: f32 has FATs at 16384 and 338944, root slots at 0xA1800; f16 FATs at 2048 and 18432.
 */
class PlantedFaultsTest {

    private static final long FAT1 = 16384;
    private static final long FAT2 = 16384 + 630 * 512;
    private static final long ROOT = 0xA1800;
    private static final long SUBDIR = 0xA1A00;
    private static final long INFO = 512;
    private static final long BACKUP = 6 * 512;

    private final List<DynamicTest> tests = new ArrayList<>();

    /** Writes an entry into both copies of f32. */
    private static void entry(DiskFile image, int cluster, long value) {
        image.plant32(FAT1 + cluster * 4L, value).plant32(FAT2 + cluster * 4L, value);
    }

    private void fault(String name, String volume, String rule, long at, Severity severity, Consumer<DiskFile> plant) {
        tests.add(DynamicTest.dynamicTest(volume + ": " + name, () -> {
            DiskFile image = Volumes.open(volume);
            plant.accept(image);
            Findings findings = Volumes.check(image, Level.FULL);
            String listed = Volumes.listed(findings);
            assertEquals(1, findings.listed().size(), () -> rule + " expected, found:\n" + listed);
            Finding found = findings.listed().get(0);
            assertEquals(rule, found.check(), listed);
            assertEquals(severity, found.severity(), listed);
            assertTrue(found.where().start() <= at && at < found.where().end(), () -> "byte " + at + " expected: " + listed);
        }));
    }

    @TestFactory
    List<DynamicTest> ofTheBootSector() {
        fault("backup differs, byte 71", "f32", "fat32.backup-equals-boot", BACKUP + 71, Severity.COSMETIC, i -> i.plant(BACKUP + 71, 'X'));
        fault("backup without 55 AA", "f32", "fat32.backup-equals-boot", BACKUP + 510, Severity.COSMETIC, i -> i.plant(BACKUP + 510, 0, 0));
        fault("backup with another FAT size", "f32", "fat32.backup-equals-boot", BACKUP + 36, Severity.AT_RISK, i -> i.plant(BACKUP + 36, 1));
        fault("free count 12345", "f32", "fat32.info-free-count", INFO + 488, Severity.COSMETIC, i -> i.plant32(INFO + 488, 12345));
        fault("hint out of range", "f32", "fat32.info-hint-in-range", INFO + 492, Severity.COSMETIC, i -> i.plant32(INFO + 492, 90000));
        fault("structure signature", "f32", "fat32.info-signatures", INFO + 484, Severity.COSMETIC, i -> i.plant(INFO + 484, 0));
        fault("total sectors too large", "f32", "fat.volume-fits-partition", 32, Severity.AT_RISK, i -> i.plant32(32, 90000).plant32(BACKUP + 32, 90000));
        fault("total sectors too small", "f32", "fat.volume-fills-partition", 32, Severity.COSMETIC, i -> i.plant32(32, 70000).plant32(BACKUP + 32, 70000));
        fault("total sectors too small", "f16", "fat.volume-fills-partition", 19, Severity.COSMETIC, i -> i.plant16(19, 28000));
        fault("state byte", "f32", "fat.closed-cleanly", 65, Severity.AT_RISK, i -> i.plant(65, 1));
        fault("state byte", "f16", "fat.closed-cleanly", 37, Severity.AT_RISK, i -> i.plant(37, 1));
        fault("media byte", "f16", "fat.media-matches-first-entry", 21, Severity.COSMETIC, i -> i.plant(21, 0xF9));
        fault("media byte not legal", "f16", "fat.media-legal", 21, Severity.AT_RISK, i -> i.plant(21, 0x11));
        fault("no 55 AA", "f32", "fat.boot-signature", 510, Severity.COSMETIC, i -> i.plant(510, 0, 0).plant(BACKUP + 510, 0, 0));
        fault("jump", "f16", "fat.jump-form", 0, Severity.COSMETIC, i -> i.plant(0, 0));
        fault("3 sectors per cluster", "f16", "fat.cluster-size-power-of-two", 13, Severity.UNUSABLE, i -> i.plant(13, 3));
        fault("0 bytes per sector", "f16", "fat.boot-sector-size-legal", 11, Severity.UNUSABLE, i -> i.plant16(11, 0));
        fault("0 bytes per sector", "f32", "fat.boot-sector-size-legal", 11, Severity.UNUSABLE, i -> i.plant16(11, 0));
        fault("no FAT", "f16", "fat.copies-not-zero", 16, Severity.UNUSABLE, i -> i.plant(16, 0));
        fault("no reserved sectors", "f12", "fat.reserved-not-zero", 14, Severity.UNUSABLE, i -> i.plant16(14, 0));
        fault("FAT size halved", "f16", "fat.table-large-enough", 22, Severity.UNUSABLE, i -> i.plant16(22, 16));
        fault("root cluster 0", "f32", "fat32.root-cluster-legal", 44, Severity.UNUSABLE, i -> i.plant32(44, 0).plant32(BACKUP + 44, 0));
        fault("root cluster 99999", "f32", "fat32.root-cluster-legal", 44, Severity.UNUSABLE, i -> i.plant32(44, 99999).plant32(BACKUP + 44, 99999));
        fault("version", "f32", "fat32.version-zero", 42, Severity.AT_RISK, i -> i.plant(43, 1).plant(BACKUP + 43, 1));
        fault("label", "f32", "fat.label-agrees", 71, Severity.COSMETIC, i -> i.plant(71, 'X').plant(BACKUP + 71, 'X'));
        fault("type text", "f12", "fat.type-text-agrees", 54, Severity.COSMETIC, i -> i.plant(58, '6'));
        fault("active FAT 5", "f32", "fat32.active-copy-legal", 40, Severity.AT_RISK, i -> i.plant(40, 0x85).plant(BACKUP + 40, 0x85));
        return tests;
    }

    @TestFactory
    List<DynamicTest> ofTheTables() {
        fault("copies differ in a used entry", "f32", "fat.copies-equal", FAT2 + 40, Severity.AT_RISK, i -> i.plant(FAT2 + 40, 99));
        fault("copies differ in a free entry", "f32", "fat.copies-equal", FAT2 + 40000, Severity.AT_RISK, i -> i.plant(FAT2 + 40000, 9));
        fault("copies differ in a used entry", "f16", "fat.copies-equal", 18432 + 8, Severity.AT_RISK, i -> i.plant(18432 + 8, 9));
        fault("first copy damaged in a chain", "f32", "fat.copies-equal", FAT2 + 28, Severity.AT_RISK, i -> i.plant32(FAT1 + 28, 0));
        fault("first copy zeroed", "f32", "fat.copies-equal", FAT2, Severity.AT_RISK, i -> {
            for (int b = 0; b < 80; b++) {
                i.plant(FAT1 + b, 0);
            }
        });
        fault("clean bit", "f16", "fat.closed-cleanly", 2050, Severity.AT_RISK, i -> i.plant16(2050, 0x7FFF).plant16(18434, 0x7FFF));
        fault("clean bit", "f32", "fat.closed-cleanly", FAT1 + 4, Severity.AT_RISK, i -> entry(i, 1, 0x07FFFFFFL));
        fault("error bit", "f16", "fat.no-media-errors-recorded", 2050, Severity.AT_RISK, i -> i.plant16(2050, 0xBFFF).plant16(18434, 0xBFFF));
        fault("error bit", "f32", "fat.no-media-errors-recorded", FAT1 + 4, Severity.AT_RISK, i -> entry(i, 1, 0x0BFFFFFFL));
        fault("loop", "f32", "fat.chain-no-loop", FAT1 + 56, Severity.AT_RISK, i -> entry(i, 14, 5));
        fault("loop", "f12", "fat.chain-no-loop", 512 + 19, Severity.AT_RISK, i -> {
            // entry 13 has the upper 12 bits of the two bytes at 19; 004 in place of FFF
            i.plant(512 + 19, 0x40, 0x00).plant(512 + 9 * 512 + 19, 0x40, 0x00);
        });
        fault("directory chain onto itself", "f32", "fat.chain-no-loop", FAT1 + 12, Severity.AT_RISK, i -> entry(i, 3, 3));
        fault("link beyond", "f32", "fat.link-in-range", FAT1 + 20, Severity.AT_RISK, i -> entry(i, 5, 0x0FFFFFF0L));
        fault("link 1", "f32", "fat.link-in-range", FAT1 + 20, Severity.AT_RISK, i -> entry(i, 5, 1));
        fault("orphans", "f32", "fat.no-orphans", FAT1 + 400, Severity.AT_RISK, i -> {
            entry(i, 100, 101);
            entry(i, 101, 0x0FFFFFFFL);
            i.plant32(INFO + 488, 80612);
        });
        fault("chain into a free entry", "f32", "fat.chain-no-free-or-bad", FAT1 + 28, Severity.AT_RISK, i -> {
            entry(i, 7, 0);
            i.plant32(INFO + 488, 80615);
        });
        fault("chain into a bad mark", "f32", "fat.chain-no-free-or-bad", FAT1 + 28, Severity.AT_RISK, i -> entry(i, 7, 0x0FFFFFF7L));
        return tests;
    }

    @TestFactory
    List<DynamicTest> ofDirectories() {
        long hello = ROOT + 64;
        fault("cross-link", "f32", "fat.chain-no-cross-link", hello + 26, Severity.AT_RISK, i -> i.plant16(hello + 26, 6));
        fault("start beyond the volume", "f32", "fat.entry-start-in-range", hello + 26, Severity.AT_RISK,
                i -> i.plant16(hello + 26, 0xFFF0).plant16(hello + 20, 0x0FFF));
        fault("checksum in both long slots", "f32", "fat.long-name-checksum", ROOT + 4 * 32 + 13, Severity.COSMETIC,
                i -> i.plant(ROOT + 96 + 13, 0x31).plant(ROOT + 128 + 13, 0x31));
        fault("order number", "f32", "fat.long-name-order", ROOT + 128, Severity.COSMETIC, i -> i.plant(ROOT + 128, 3));
        fault("long slots without 8.3 entry", "f32", "fat.long-name-has-short", ROOT + 7 * 32, Severity.COSMETIC, i -> {
            // the deleted slot 7 becomes a long-name slot that nothing follows
            i.plant(ROOT + 7 * 32, 0x41, 'a', 0, 0, 0, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x0F, 0, 0x55, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF,
                    0xFF, 0xFF, 0xFF, 0xFF, 0, 0, 0xFF, 0xFF, 0xFF, 0xFF);
        });
        fault("size larger than chain", "f32", "fat.chain-length-matches-size", ROOT + 5 * 32 + 28, Severity.AT_RISK, i -> i.plant32(ROOT + 5 * 32 + 28, 9000));
        fault("size smaller than chain", "f32", "fat.chain-length-matches-size", ROOT + 5 * 32 + 28, Severity.AT_RISK, i -> i.plant32(ROOT + 5 * 32 + 28, 1024));
        fault("directory with a size", "f32", "fat.directory-size-zero", ROOT + 32 + 28, Severity.COSMETIC, i -> i.plant(ROOT + 32 + 28, 1));
        fault("wrong ..", "f32", "fat.dot-entries", SUBDIR + 32 + 26, Severity.AT_RISK, i -> i.plant(SUBDIR + 32 + 26, 77));
        fault("two entries of one name", "f32", "fat.name-unique", ROOT + 6 * 32, Severity.AT_RISK, i -> i.plant(ROOT + 6 * 32, 'H', 'E', 'L', 'L', 'O', ' ', ' ', ' ', 'T', 'X', 'T'));
        fault("a short name that is another's long name", "f32", "fat.name-unique", ROOT + 6 * 32, Severity.AT_RISK, i -> {
            // the long name of slots 3 and 4 becomes "EMPTY.DAT", the 8.3 name of slot 6; the slots keep the checksum of ALONGF~1.BIN
            String name = "EMPTY.DAT";
            int[] places = {1, 3, 5, 7, 9, 14, 16, 18, 20, 22, 24, 28, 30};
            i.plant(ROOT + 3 * 32, 0xE5).plant(ROOT + 4 * 32, 0x41);
            for (int c = 0; c < 13; c++) {
                i.plant16(ROOT + 4 * 32 + places[c], c < name.length() ? name.charAt(c) : c == name.length() ? 0 : 0xFFFF);
            }
        });
        fault("bad character", "f32", "fat.name-legal", hello + 1, Severity.COSMETIC, i -> i.plant(hello + 1, '*'));
        fault("two labels", "f32", "fat.one-label", ROOT + 6 * 32 + 11, Severity.COSMETIC, i -> i.plant(ROOT + 6 * 32 + 11, 8));
        fault("label with a size", "f32", "fat.one-label", ROOT + 26, Severity.COSMETIC, i -> i.plant32(ROOT + 28, 7));
        fault("month 15", "f32", "fat.date-legal", hello + 24, Severity.COSMETIC, i -> i.plant16(hello + 24, 0x51FD));
        fault("hour 25", "f32", "fat.date-legal", hello + 22, Severity.COSMETIC, i -> i.plant16(hello + 22, 25 << 11));
        fault("reserved attribute bit", "f32", "fat.attribute-legal", hello + 11, Severity.COSMETIC, i -> i.plant(hello + 11, 0x60));
        fault("high word on FAT16", "f16", "fat.high-word-zero", 0x8800 + 64 + 20, Severity.COSMETIC, i -> i.plant(0x8800 + 64 + 20, 9));
        fault("size 0 with a cluster", "f32", "fat.empty-file-no-cluster", hello + 26, Severity.AT_RISK, i -> i.plant32(hello + 28, 0));
        fault("directory without cluster", "f32", "fat.directory-has-cluster", ROOT + 32 + 26, Severity.AT_RISK, i -> {
            i.plant16(ROOT + 32 + 26, 0);
            entry(i, 3, 0);
            entry(i, 15, 0);
            i.plant32(INFO + 488, 80616);
        });
        fault("entry after the end", "f32", "fat.nothing-after-end-slot", ROOT + 10 * 32, Severity.COSMETIC, i -> i.plant(ROOT + 10 * 32, 'X'));
        return tests;
    }

    /** A date that is not set and an unknown free count are no faults. */
    @TestFactory
    List<DynamicTest> nothingIsListedFor() {
        List<DynamicTest> sound = new ArrayList<>();
        for (String volume : List.of("f12", "f16", "f32", "f12k", "f16k", "f32k")) {
            sound.add(DynamicTest.dynamicTest(volume + " as made", () -> assertEquals("", Volumes.listed(Volumes.check(Volumes.open(volume), Level.FULL)))));
        }
        sound.add(DynamicTest.dynamicTest("date 0", () -> assertEquals("", Volumes.listed(Volumes.check(Volumes.open("f32")
                .plant16(ROOT + 64 + 24, 0), Level.FULL)))));
        sound.add(DynamicTest.dynamicTest("free count FFFFFFFF", () -> assertEquals("", Volumes.listed(Volumes.check(Volumes.open("f32")
                .plant32(INFO + 488, 0xFFFFFFFFL), Level.FULL)))));
        sound.add(DynamicTest.dynamicTest("upper four bits of an entry", () -> assertEquals("", Volumes.listed(Volumes.check(Volumes.open("f32")
                .plant(FAT1 + 7 * 4 + 3, 0xA0), Level.FULL)))));
        return sound;
    }
}
