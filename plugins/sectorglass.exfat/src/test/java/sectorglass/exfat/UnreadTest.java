package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Collectors;

import org.junit.jupiter.api.Test;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeSite;
import sectorglass.testvolumes.DiskFile;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Verdict;

/**
 * Sectors that were not read are neither zero, nor free, nor the end: a sound volume never fails for them, and a fault is never passed
 * over. The places are those at which zero filler fools fsck.exfat and blkid.
 */
class UnreadTest {

    private static Set<String> notChecked(Findings findings) {
        return findings.all().stream().filter(f -> f.verdict() == Verdict.NOT_CHECKED).map(Finding::check)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static void nothingFails(Findings findings) {
        List<Finding> failed = findings.all().stream().filter(f -> f.verdict() == Verdict.FAILED).toList();
        assertEquals(List.of(), failed.stream().map(f -> f.check() + " " + f.what()).toList());
    }

    private static Set<String> lost(long first, long count) {
        Findings findings = Volumes.check(Volumes.open().lose(first, count), Level.FULL);
        nothingFails(findings);
        return notChecked(findings);
    }

    @Test
    void bootSector() {
        Set<String> open = lost(0, 1);
        assertTrue(open.containsAll(Set.of("exfat.backup-equals-main", "exfat.closed-cleanly")), open.toString());
        assertTrue(!open.contains("exfat.chain-sound") && !open.contains("exfat.bitmap-no-orphans"), open.toString());
    }

    @Test
    void backupRegion() {
        Set<String> open = lost(12, 12);
        assertEquals(Set.of("exfat.backup-checksum", "exfat.backup-equals-main", "exfat.extended-signatures"), open);
    }

    /** Contiguous files are known without the FAT; chains, orphans and the root beyond its first cluster are not. */
    @Test
    void fat() {
        Set<String> open = lost(128, 8);
        assertTrue(open.containsAll(Set.of("exfat.chain-sound", "exfat.root-chain", "exfat.first-fat-entries")), open.toString());
        assertTrue(!open.contains("exfat.set-checksum"), open.toString());
    }

    /** Zero filler here marks every file as free. */
    @Test
    void bitmap() {
        Set<String> open = lost(256, 1);
        assertEquals(Set.of("exfat.bitmap-covers-owners", "exfat.bitmap-no-orphans", "exfat.percent-in-use"), open);
    }

    @Test
    void upcaseTable() {
        Set<String> open = lost(264, 8);
        assertEquals(Set.of("exfat.upcase-checksum", "exfat.upcase-first-128"), open);
    }

    /** Zero filler here hides bitmap, table and every file. */
    @Test
    void rootDirectory() {
        Set<String> open = lost(Volumes.cluster(5) / 512, 8);
        assertTrue(open.containsAll(Set.of("exfat.bitmap-entry-count", "exfat.upcase-one-entry", "exfat.set-checksum")), open.toString());
    }

    /** A set may cross a sector: its checksum is open, its place is known. */
    @Test
    void secondSectorOfTheRoot() {
        Set<String> open = lost(Volumes.cluster(5) / 512 + 1, 1);
        assertTrue(open.containsAll(Set.of("exfat.set-checksum", "exfat.bitmap-no-orphans", "exfat.chain-sound")), open.toString());
    }

    @Property(tries = 80)
    void aSoundVolumeNeverFailsForWhatWasNotRead(@ForAll @Size(max = 6) List<@IntRange(max = 120) Integer> sectors) {
        DiskFile image = Volumes.open();
        sectors.forEach(sector -> image.lose(sector < 30 ? sector : sector < 40 ? 128 + sector - 30 : 256 + sector - 40, 1));
        if (new ExfatVolumeProvider().recognise(new VolumeSite(image, image.all(), null)).isPresent()) {
            nothingFails(Volumes.check(image, Level.FULL));
        }
    }

    private static final List<Consumer<byte[]>> FAULTS = List.of(
            i -> Volumes.fat(i, 11, 10),
            i -> i[0x20000] = (byte) 0xBF,
            i -> i[0x20010] = 1,
            i -> i[0x23062] = 0,
            i -> i[300] = 1,
            i -> i[12 * 512 + 300] = 1,
            i -> i[0x21000 + 600] = 9,
            i -> Volumes.fat(i, 12, 0));

    /** What fails on the whole image fails or stays open on a part of it; it never passes. */
    @Property(tries = 80)
    void aFaultIsNeverPassedOver(@ForAll @IntRange(max = 7) int fault, @ForAll @Size(max = 4) List<@IntRange(max = 120) Integer> sectors) {
        byte[] bytes = Volumes.filled();
        FAULTS.get(fault).accept(bytes);
        Set<String> wrong = Volumes.check(DiskFile.of(bytes, 512), Level.FULL).listed().stream().map(Finding::check).collect(Collectors.toSet());
        DiskFile part = DiskFile.of(bytes, 512);
        sectors.forEach(sector -> part.lose(sector < 30 ? sector : sector < 40 ? 128 + sector - 30 : 256 + sector - 40, 1));
        if (new ExfatVolumeProvider().recognise(new VolumeSite(part, part.all(), null)).isEmpty()) {
            return;
        }
        Findings findings = Volumes.check(part, Level.FULL);
        for (String rule : wrong) {
            boolean told = findings.all().stream().anyMatch(f -> f.check().equals(rule) && f.verdict() != Verdict.PASSED)
                    || findings.all().stream().noneMatch(f -> f.check().equals(rule));
            assertTrue(told, () -> rule + " passed although " + sectors + " were not read");
        }
    }
}
