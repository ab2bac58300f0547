package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Level;
import sectorglass.image.SectorImage;
import sectorglass.verify.Finding;
import sectorglass.verify.Severity;

/**
 * Damages planted one by one in a volume written by mkntfs and ntfscp; each must be found by its rule at its byte, and must stay one
 * finding. Half of them are missed by ntfsfix, ntfsinfo and ntfsresize (ntfs-3g 2022.10.3).
 */
class DamagesTest {
    private static final int BITMAP = 2055 * 4096;
    private static final int ROOT_INDEX = 2053 * 4096;

    @TempDir
    static Path folder;

    private record Damage(String what, long at, int[] bytes, String rule, long place) { }

    private static int[] le(long value, int count) {
        int[] bytes = new int[count];
        for (int i = 0; i < count; i++) {
            bytes[i] = (int) (value >>> 8 * i) & 0xFF;
        }
        return bytes;
    }

    private static long record(int number) {
        return 16384 + 1024L * number;
    }

    private static Damage at(String what, long at, int[] bytes, String rule) {
        return new Damage(what, at, bytes, rule, at);
    }

    private static List<Damage> damages() {
        int rootEntry = 0x40;
        return List.of(at("fix-up mismatch", record(65) + 1022, new int[] {0xF9, 0xFF}, "ntfs.record.fixup"),
                at("signature destroyed", record(65), new int[] {'X', 'X', 'X', 'X'}, "ntfs.record.signature"),
                at("mirror differs", 8191L * 4096 + 3 * 1024 + 0x1B0, new int[] {2}, "ntfs.mirror.equal"),
                at("run beyond the volume", record(65) + 344 + 64, new int[] {0x21, 0x19, 0xFF, 0x7F}, "ntfs.run.beyond-volume"),
                at("two files, one cluster", record(66) + 336 + 64, new int[] {0x21, 1, 0, 0x22}, "ntfs.cluster-claimed-twice"),
                at("bitmap bit cleared", BITMAP + 1088, new int[] {0xFE}, "ntfs.claimed-but-free"),
                new Damage("backup boot sector zeroed", 67108352, new int[512], "ntfs.boot.backup-equal", 67108352),
                at("total sectors too large", 0x28, le(262143, 8), "ntfs.boot.total-sectors"),
                at("record number wrong", record(65) + 0x2C, new int[] {99}, "ntfs.record.number-position"),
                at("attribute length 0", record(65) + 0x3C, new int[] {0}, "ntfs.attribute.walk"),
                new Damage("record sequence differs from the index", record(65) + 0x10, new int[] {9}, "ntfs.index.entry-record", -1),
                at("parent missing", record(65) + 152, new int[] {0xE7, 3, 0, 0, 0, 0, 1, 0}, "ntfs.parent-reference"),
                at("real size beyond the clusters", record(65) + 344 + 48, le(999999, 8), "ntfs.sizes-consistent"),
                new Damage("sector 0 zeroed", 0, new int[512], "ntfs.boot.oem-id", 3),
                at("fix-up of record 0", record(0) + 1022, new int[] {0xFD, 0xFF}, "ntfs.record.fixup"),
                at("signature of record 0", record(0), new int[] {'X', 'X', 'X', 'X'}, "ntfs.record.signature"),
                at("total sectors one too large", 0x28, le(131072, 8), "ntfs.boot.total-sectors"),
                at("allocated but unclaimed", BITMAP + 1500, new int[] {1}, "ntfs.allocated-but-unclaimed"),
                at("fix-up of the root index", ROOT_INDEX + 510, new int[] {0xF0, 0xFF}, "ntfs.index.fixup"),
                at("used size 5000", record(65) + 0x18, le(5000, 4), "ntfs.record.sizes"),
                new Damage("index entry length 0", ROOT_INDEX + rootEntry + 8, new int[] {0, 0}, "ntfs.index.tree", ROOT_INDEX + rootEntry + 8),
                at("record all zero", record(66), new int[1024], "ntfs.record.signature"),
                at("highest VCN 99", record(65) + 344 + 24, le(99, 8), "ntfs.run.list-shape"));
    }

    @Test
    void aSoundVolumeHasNoFinding() throws IOException {
        for (Path image : List.of(Volumes.empty(folder), Volumes.withFiles(folder))) {
            assertEquals("", list(MemoryImage.of(image)), image.toString());
        }
    }

    private static String list(SectorImage image) {
        StringBuilder text = new StringBuilder();
        for (Finding f : Volumes.verify(image, Level.FULL).listed()) {
            text.append(f.check()).append(' ').append(f.severity()).append(" at ").append(f.where().start()).append(" count ").append(f.count())
                    .append(": ").append(f.what()).append('\n');
        }
        return text.toString();
    }

    /** One bad region is one finding with a count and a list, whatever follows from it. */
    @Test
    void neighbouringTornRecordsAreOneFinding() throws IOException {
        MemoryImage image = MemoryImage.of(Volumes.withFiles(folder));
        for (int number = 64; number < 68; number++) {
            image = image.with(record(number) + 510, 0xEE, 0xEE);
        }
        List<Finding> listed = Volumes.verify(image, Level.FULL).listed();
        assertEquals(1, listed.size(), list(image));
        assertEquals("ntfs.record.fixup", listed.get(0).check());
        assertTrue(listed.get(0).count() >= 4, "count " + listed.get(0).count());
        assertTrue(listed.get(0).what().contains("4 (64, 65, 66, 67)"), listed.get(0).what());
    }

    @TestFactory
    Stream<DynamicTest> everyPlantedDamageIsFoundOnce() throws IOException {
        MemoryImage sound = MemoryImage.of(Volumes.withFiles(folder));
        return damages().stream().map(d -> DynamicTest.dynamicTest(d.what(), () -> found(sound.with(d.at(), d.bytes()), d)));
    }

    private static void found(MemoryImage damaged, Damage damage) {
        List<Finding> listed = Volumes.verify(damaged, Level.FULL).listed();
        String all = list(damaged);
        Finding hit = listed.stream().filter(f -> f.check().equals(damage.rule())).findFirst().orElse(null);
        assertTrue(hit != null, damage.rule() + " is not among\n" + all);
        if (damage.place() >= 0) {
            assertTrue(hit.where().start() == damage.place() || hit.where().contains(damage.place()),
                    hit.where() + " instead of " + damage.place());
        }
        assertTrue(hit.what().indexOf('{') < 0 && !hit.what().contains("–"), hit.what());
        long others = listed.stream().filter(f -> f != hit && f.severity() != Severity.COSMETIC).count();
        assertEquals(0, others, all);
    }
}
