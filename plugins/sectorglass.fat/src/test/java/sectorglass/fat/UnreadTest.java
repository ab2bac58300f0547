package sectorglass.fat;

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
 * over. The places are those at which zero filler fools fsck.fat and blkid.
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

    private static Findings lost(String name, long first, long count) {
        Findings findings = Volumes.check(Volumes.open(name).lose(first, count), Level.FULL);
        nothingFails(findings);
        return findings;
    }

    /** The backup gives the layout, and decides nothing about the fields of the sector that was not read. */
    @Test
    void bootSectorOfFat32() {
        Findings findings = lost("f32", 0, 1);
        assertEquals(List.of("fat.boot-sector-size-legal", "fat.closed-cleanly", "fat32.backup-equals-boot"),
                findings.listed().stream().map(Finding::check).sorted().toList());
        assertTrue(findings.all().stream().anyMatch(f -> f.check().equals("fat.chain-no-loop") && f.verdict() == Verdict.PASSED));
    }

    /** The layout is guessed, the files are checked all the same; what the fields say stays open, as one finding and the state byte. */
    @Test
    void bootSectorOfFat16() {
        Findings findings = lost("f16", 0, 1);
        assertEquals(List.of("fat.boot-sector-size-legal", "fat.closed-cleanly"), findings.listed().stream().map(Finding::check).sorted().toList());
        assertTrue(findings.all().stream().anyMatch(f -> f.check().equals("fat.chain-no-loop") && f.verdict() == Verdict.PASSED));
    }

    @Test
    void informationSector() {
        assertEquals(Set.of("fat32.info-signatures", "fat32.info-hint-in-range", "fat32.info-free-count"), notChecked(lost("f32", 1, 1)));
    }

    /** What the second copy holds decides nothing about the first; files are followed through it all the same. */
    @Test
    void firstSectorOfTheFirstCopy() {
        Findings findings = lost("f32", 32, 1);
        assertTrue(notChecked(findings).containsAll(Set.of("fat.copies-equal", "fat.no-orphans", "fat.link-in-range")));
        assertTrue(findings.all().stream().filter(f -> f.verdict() == Verdict.NOT_CHECKED)
                .allMatch(f -> f.missing().equals(sectorglass.image.SectorRanges.of(32, 1))));
    }

    @Test
    void wholeFirstCopy() {
        Set<String> open = notChecked(lost("f32", 32, 630));
        assertTrue(open.containsAll(Set.of("fat.copies-equal", "fat.no-orphans")), open.toString());
    }

    @Test
    void wholeSecondCopy() {
        Set<String> open = notChecked(lost("f32", 662, 630));
        assertTrue(open.contains("fat.copies-equal") && !open.contains("fat.no-orphans"), open.toString());
    }

    /** Zero filler here looks like free clusters. */
    @Test
    void bothCopiesWithoutUsedEntries() {
        Set<String> open = notChecked(Volumes.check(Volumes.open("f32").lose(132, 1).lose(762, 1), Level.FULL));
        assertTrue(open.containsAll(Set.of("fat.copies-equal", "fat.no-orphans", "fat32.info-free-count", "fat.link-in-range")), open.toString());
        assertTrue(!open.contains("fat.chain-no-loop"), open.toString());
    }

    /** Zero filler here makes every file look lost. */
    @Test
    void rootDirectory() {
        Set<String> open = notChecked(lost("f32", 1292, 1));
        assertTrue(open.containsAll(Set.of("fat.no-orphans", "fat.name-unique", "fat.label-agrees")), open.toString());
    }

    @Test
    void subdirectory() {
        Set<String> open = notChecked(lost("f32", 1293, 1));
        assertTrue(open.containsAll(Set.of("fat.no-orphans", "fat.dot-entries", "fat.chain-no-loop")), open.toString());
    }

    @Test
    void theMissingSectorsAreNamed() {
        Findings findings = lost("f32", 1292, 1);
        for (Finding f : findings.all()) {
            if (f.verdict() == Verdict.NOT_CHECKED) {
                assertEquals(sectorglass.image.SectorRanges.of(1292, 1), f.missing(), f.check());
            }
        }
    }

    @Property(tries = 60)
    void aSoundVolumeNeverFailsForWhatWasNotRead(@ForAll @Size(max = 6) List<@IntRange(max = 40) Integer> sectors) {
        DiskFile image = Volumes.open("f12");
        sectors.forEach(sector -> image.lose(sector, 1));
        if (new FatVolumeProvider().recognise(new VolumeSite(image, image.all(), null)).isPresent()) {
            nothingFails(Volumes.check(image, Level.FULL));
        }
    }

    @Property(tries = 60)
    void aSoundFat32NeverFailsForWhatWasNotRead(@ForAll @Size(max = 6) List<@IntRange(max = 1310) Integer> sectors) {
        DiskFile image = Volumes.open("f32");
        sectors.forEach(sector -> image.lose(sector < 60 ? sector : sector < 100 ? 662 + sector % 10 : 1292 + sector % 18, 1));
        if (new FatVolumeProvider().recognise(new VolumeSite(image, image.all(), null)).isPresent()) {
            nothingFails(Volumes.check(image, Level.FULL));
        }
    }

    private static final List<Consumer<DiskFile>> FAULTS = List.of(
            i -> i.plant32(16384 + 56, 5).plant32(16384 + 630 * 512 + 56, 5),
            i -> i.plant16(0xA1800 + 64 + 26, 6),
            i -> i.plant32(16384 + 400, 0x0FFFFFFF).plant32(16384 + 630 * 512 + 400, 0x0FFFFFFF),
            i -> i.plant(0xA1A00 + 32 + 26, 77),
            i -> i.plant32(0xA1800 + 5 * 32 + 28, 9000),
            i -> i.plant(16384 + 630 * 512 + 40, 99),
            i -> i.plant(510, 0));

    /** What fails on the whole image fails or stays open on a part of it; it never passes. */
    @Property(tries = 80)
    void aFaultIsNeverPassedOver(@ForAll @IntRange(max = 6) int fault, @ForAll @Size(max = 4) List<@IntRange(max = 100) Integer> sectors) {
        DiskFile whole = Volumes.open("f32");
        FAULTS.get(fault).accept(whole);
        Set<String> wrong = Volumes.check(whole, Level.FULL).listed().stream().map(Finding::check).collect(Collectors.toSet());
        DiskFile part = Volumes.open("f32");
        FAULTS.get(fault).accept(part);
        sectors.forEach(sector -> part.lose(sector < 40 ? sector : sector < 60 ? 662 + sector - 40 : 1292 + sector - 60, 1));
        if (new FatVolumeProvider().recognise(new VolumeSite(part, part.all(), null)).isEmpty()) {
            return; // with the boot sector and its backup unread there is no volume, and nothing is said of one
        }
        Findings findings = Volumes.check(part, Level.FULL);
        for (String rule : wrong) {
            List<Finding> verdicts = findings.all().stream().filter(f -> f.check().equals(rule)).toList();
            boolean told = rule.equals("fat.boot-signature") || verdicts.stream().anyMatch(f -> f.verdict() != Verdict.PASSED);
            assertTrue(told, () -> rule + " passed although " + sectors + " were not read");
        }
    }
}
