package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

import sectorglass.disk.Level;
import sectorglass.testvolumes.DiskFile;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;

/**
 * One fault planted into a sound volume: it is found at its byte, and nothing but it is listed. The faults are those that fsck.exfat 1.2.0
 * was tried on, with the ones that it misses.
 */
class PlantedFaultsTest {

    private static final int HELLO = 0x23060;
    private static final int FRAG = 0x23140;
    private static final int EMPTY = 0x231A0;
    private static final int SUB = 0x23200;
    private static final int BACKUP = 12 * 512;

    private final List<DynamicTest> tests = new ArrayList<>();

    private void fault(String name, String rule, long at, Severity severity, Consumer<byte[]> plant) {
        tests.add(DynamicTest.dynamicTest(name, () -> {
            byte[] image = Volumes.filled();
            plant.accept(image);
            Findings findings = Volumes.check(DiskFile.of(image, 512), Level.FULL);
            String listed = Volumes.listed(findings);
            assertEquals(1, findings.listed().size(), () -> rule + " expected, found:\n" + listed);
            Finding found = findings.listed().get(0);
            assertEquals(rule, found.check(), listed);
            assertEquals(severity, found.severity(), listed);
            assertTrue(found.where().start() <= at && at < found.where().end(), () -> "byte " + at + " expected: " + listed);
        }));
    }

    private static void put(byte[] image, int at, int... values) {
        for (int i = 0; i < values.length; i++) {
            image[at + i] = (byte) values[i];
        }
    }

    /** Bytes in a set whose checksum is then made right. */
    private static Consumer<byte[]> set(int set, int at, int... values) {
        return image -> {
            put(image, set + at, values);
            Volumes.fixSet(image, set);
        };
    }

    @TestFactory
    List<DynamicTest> ofTheBootRegions() {
        fault("first checksum word", "exfat.main-checksum", 11 * 512, Severity.UNUSABLE, i -> put(i, 11 * 512, 0x78, 0x56, 0x34, 0x12));
        fault("boot code byte", "exfat.main-checksum", 300, Severity.UNUSABLE, i -> put(i, 300, 1));
        fault("last checksum word", "exfat.main-checksum", 12 * 512 - 4, Severity.UNUSABLE, i -> put(i, 12 * 512 - 4, 0, 0, 0, 0));
        fault("backup checksum", "exfat.backup-checksum", BACKUP + 11 * 512, Severity.AT_RISK, i -> put(i, BACKUP + 11 * 512, 1));
        fault("backup differs but agrees with itself", "exfat.backup-equals-main", BACKUP + 200, Severity.AT_RISK, i -> {
            put(i, BACKUP + 200, 7);
            Volumes.fixRegion(i, 12);
        });
        fault("backup all zero", "exfat.backup-equals-main", BACKUP, Severity.AT_RISK, i -> Arrays.fill(i, BACKUP, BACKUP + 12 * 512, (byte) 0));
        fault("MustBeZero", "exfat.name-and-zero-area", 30, Severity.UNUSABLE, i -> Volumes.both(i, 30, 1));
        fault("no 55 AA", "exfat.boot-signature", 510, Severity.UNUSABLE, i -> Volumes.both(i, 510, 0, 0));
        fault("extended signature", "exfat.extended-signatures", 3 * 512 - 2, Severity.COSMETIC, i -> {
            put(i, 3 * 512 - 2, 0, 0);
            put(i, BACKUP + 3 * 512 - 2, 0, 0);
            Volumes.fixRegion(i, 0);
            Volumes.fixRegion(i, 12);
        });
        fault("VolumeLength larger than the image", "exfat.volume-fits-partition", 72, Severity.AT_RISK, i -> Volumes.both(i, 72, 0x28, 0x23));
        fault("VolumeLength too small", "exfat.cluster-count-exact", 72, Severity.AT_RISK, i -> Volumes.both(i, 72, 0x58, 0x1B));
        fault("ClusterCount too large", "exfat.cluster-count-exact", 92, Severity.AT_RISK, i -> Volumes.both(i, 92, 0xE8, 0x03));
        fault("PercentInUse 77", "exfat.percent-in-use", 112, Severity.COSMETIC, i -> put(i, 112, 77));
        fault("PercentInUse 200", "exfat.field-ranges", 112, Severity.COSMETIC, i -> put(i, 112, 200));
        fault("VolumeDirty", "exfat.closed-cleanly", 106, Severity.AT_RISK, i -> put(i, 106, 2));
        fault("MediaFailure", "exfat.no-media-failure", 106, Severity.AT_RISK, i -> put(i, 106, 4));
        fault("ActiveFat without a second FAT", "exfat.active-fat-legal", 106, Severity.AT_RISK, i -> put(i, 106, 1));
        fault("revision 2", "exfat.revision-supported", 105, Severity.UNUSABLE, i -> Volumes.both(i, 104, 0, 2));
        fault("root cluster 0", "exfat.field-ranges", 96, Severity.UNUSABLE, i -> Volumes.both(i, 96, 0));
        fault("sector shift 13", "exfat.field-ranges", 108, Severity.UNUSABLE, i -> put(i, 108, 13));
        fault("three FATs", "exfat.field-ranges", 110, Severity.UNUSABLE, i -> put(i, 110, 3));
        fault("name gone", "exfat.name-and-zero-area", 3, Severity.UNUSABLE, i -> put(i, 3, 'X'));
        return tests;
    }

    @TestFactory
    List<DynamicTest> ofSets() {
        fault("SetChecksum", "exfat.set-checksum", HELLO + 2, Severity.AT_RISK, i -> put(i, HELLO + 2, 0));
        fault("NameHash", "exfat.name-hash", HELLO + 32 + 4, Severity.COSMETIC, set(HELLO, 32 + 4, 1));
        fault("ValidDataLength", "exfat.valid-length", HELLO + 32 + 8, Severity.AT_RISK, set(HELLO, 32 + 8, 22));
        fault("SecondaryCount 1", "exfat.set-shape", HELLO + 1, Severity.AT_RISK, i -> put(i, HELLO + 1, 1));
        fault("NoFatChain on an empty file", "exfat.start-in-range", EMPTY + 32 + 1, Severity.AT_RISK, set(EMPTY, 32 + 1, 3));
        fault("FirstCluster 5000", "exfat.start-in-range", HELLO + 32 + 20, Severity.AT_RISK, set(HELLO, 32 + 20, 0x88, 0x13));
        fault("FirstCluster 1", "exfat.start-in-range", HELLO + 32 + 20, Severity.AT_RISK, set(HELLO, 32 + 20, 1));
        fault("contiguous run too long", "exfat.contiguous-run-fits", HELLO + 32 + 24, Severity.AT_RISK, set(HELLO, 32 + 20, 0xE0, 3, 0, 0, 0, 0, 2));
        fault("directory size", "exfat.directory-length", SUB + 32 + 24, Severity.AT_RISK, i -> {
            put(i, SUB + 32 + 8, 100, 0);
            put(i, SUB + 32 + 24, 100, 0);
            Volumes.fixSet(i, SUB);
        });
        fault("month 0", "exfat.timestamps-legal", HELLO + 8, Severity.COSMETIC, set(HELLO, 10, 0x1D, 0x50));
        fault("increment 200", "exfat.timestamps-legal", HELLO + 20, Severity.COSMETIC, set(HELLO, 20, 200));
        fault("reserved byte", "exfat.reserved-zero", HELLO + 26, Severity.COSMETIC, set(HELLO, 26, 5));
        fault("slash in a name", "exfat.name-length", HELLO + 64 + 4, Severity.AT_RISK, set(HELLO, 64 + 4, '/'));
        fault("cross-link", "exfat.no-shared-clusters", HELLO + 32 + 20, Severity.AT_RISK, set(HELLO, 32 + 20, 8));
        fault("a bitmap entry in a folder", "exfat.critical-only-in-root", 0x2B060, Severity.AT_RISK, i -> put(i, 0x2B060, 0x81));
        fault("an unknown critical entry", "exfat.critical-only-in-root", 0x2B060, Severity.AT_RISK, i -> put(i, 0x2B060, 0x8A));
        fault("a name entry alone", "exfat.set-shape", 0x2B060, Severity.AT_RISK, i -> put(i, 0x2B060, 0xC1));
        fault("an entry after the end", "exfat.nothing-after-end", 0x2B0C0, Severity.COSMETIC, i -> put(i, 0x2B0C0, 0x05));
        return tests;
    }

    @TestFactory
    List<DynamicTest> ofTables() {
        fault("bit 0 for a cluster of a file", "exfat.bitmap-covers-owners", 0x20000, Severity.AT_RISK, i -> put(i, 0x20000, 0xBF));
        fault("bit 0 for the bitmap", "exfat.bitmap-covers-owners", 0x20000, Severity.AT_RISK, i -> put(i, 0x20000, 0xFE));
        fault("bit 0 for the up-case table", "exfat.bitmap-covers-owners", 0x20000, Severity.AT_RISK, i -> put(i, 0x20000, 0xFB));
        fault("bit 0 for the root directory", "exfat.bitmap-covers-owners", 0x20000, Severity.AT_RISK, i -> put(i, 0x20000, 0xF7));
        fault("bit 1 without owner", "exfat.bitmap-no-orphans", 0x20010, Severity.AT_RISK, i -> put(i, 0x20010, 1));
        fault("loop", "exfat.chain-sound", Volumes.fatByte(11), Severity.AT_RISK, i -> Volumes.fat(i, 11, 10));
        fault("chain too short", "exfat.chain-sound", Volumes.fatByte(12), Severity.AT_RISK, i -> Volumes.fat(i, 12, -1));
        fault("chain into 0", "exfat.chain-sound", Volumes.fatByte(12), Severity.AT_RISK, i -> Volumes.fat(i, 12, 0));
        fault("chain beyond", "exfat.chain-sound", Volumes.fatByte(12), Severity.AT_RISK, i -> Volumes.fat(i, 12, 5000));
        fault("chain into a bad mark", "exfat.chain-sound", Volumes.fatByte(12), Severity.AT_RISK, i -> Volumes.fat(i, 12, 0xFFFFFFF7));
        fault("FAT entry 0", "exfat.first-fat-entries", Volumes.fatByte(0), Severity.COSMETIC, i -> Volumes.fat(i, 0, 0));
        fault("chain of the root directory", "exfat.root-chain", Volumes.fatByte(5), Severity.UNUSABLE, i -> Volumes.fat(i, 5, 0));
        fault("up-case checksum", "exfat.upcase-checksum", 0x23044, Severity.AT_RISK, i -> put(i, 0x23044, 0, 0, 0, 0));
        fault("up-case data", "exfat.upcase-checksum", 0x23044, Severity.AT_RISK, i -> put(i, 0x21000 + 600, 9));
        fault("bitmap entry deleted", "exfat.bitmap-entry-count", 0x23000, Severity.UNUSABLE, i -> put(i, 0x23020, 1));
        fault("up-case entry deleted", "exfat.upcase-one-entry", 0x23000, Severity.AT_RISK, i -> put(i, 0x23040, 2));
        fault("bitmap too short", "exfat.bitmap-long-enough", 0x23020 + 24, Severity.UNUSABLE, i -> put(i, 0x23020 + 24, 100));
        fault("label too long", "exfat.label-length", 0x23001, Severity.COSMETIC, i -> put(i, 0x23001, 12));
        return tests;
    }

    @Test
    void soundVolumesPass() {
        assertEquals("", Volumes.listed(Volumes.check(Volumes.open(), Level.FULL)));
        assertEquals("", Volumes.listed(Volumes.check(DiskFile.of(Volumes.empty(), 512), Level.FULL)));
    }
}
