package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Set;

import org.junit.jupiter.api.Test;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;

/** Unread is not zero: what was not read makes checks undecided, never failed, and never passed where it matters. */
class UnreadTest {
    /** Sectors of e4 that hold metadata: superblock to directories, extent node, backups. */
    private static final int METADATA = 138 * 8;

    @Property(tries = 60)
    void aSoundVolumeNeverFails(@ForAll @Size(min = 1, max = 12) List<@IntRange(min = 2, max = METADATA) Integer> lost) {
        List<SectorRange> runs = lost.stream().map(lba -> new SectorRange(lba, 1)).toList();
        SectorRanges gone = SectorRanges.of(runs);
        Judged judged = Forced.full(DiskFile.of(ExtImages.image("e4")).unread(gone));
        assertEquals(List.of(), judged.failed(), judged.text());
        Set<Long> named = new HashSet<>();
        for (Finding finding : judged.findings().all()) {
            if (finding.verdict() == Verdict.NOT_CHECKED) {
                for (SectorRange run : finding.missing()) {
                    for (long lba = run.first(); lba < run.end(); lba++) {
                        named.add(lba);
                    }
                }
            }
        }
        named.removeIf(gone::contains);
        assertEquals(Set.of(), named, "sectors called missing that were read");
    }

    @Property(tries = 40)
    void theTreeHoldsWhatWasRead(@ForAll @Size(min = 1, max = 12) List<@IntRange(min = 8, max = METADATA) Integer> lost) {
        SectorRanges gone = SectorRanges.of(lost.stream().map(lba -> new SectorRange(lba, 1)).toList());
        Files files = Forced.open(DiskFile.of(ExtImages.image("e3")).unread(gone)).capability(Files.class).orElseThrow();
        var tree = files.tree(Progress.NONE);
        for (int id = 0; id < tree.size(); id++) {
            tree.entry(id);
            var content = files.content(id, "");
            if (content != null) {
                content.missing();
            }
        }
    }

    @Test
    void aSignatureNeedsOnlyItsOwnSector() {
        byte[] bytes = ExtImages.image("e4").clone();
        bytes[1024 + 0x38] = 0;
        Judged judged = Forced.full(DiskFile.of(bytes).unread(SectorRanges.of(3, 1)));
        assertEquals(List.of("ext.sb.magic"), judged.failed(), judged.text());
    }

    @Test
    void unreadPrimaryIsReplacedByABackup() {
        Judged judged = Forced.full(DiskFile.of(ExtImages.image("e4")).unread(SectorRanges.of(2, 14)));
        assertEquals(List.of(), judged.failed(), judged.text());
        assertTrue(judged.undecided().contains("ext.sb.magic"));
        assertEquals("TESTVOL", judged.volume().info().label());
    }

    @Test
    void unreadDescriptorsComeFromTheirCopy() {
        DiskFile image = DiskFile.of(ExtImages.image("e4")).unread(SectorRanges.of(8, 8));
        Judged judged = Forced.full(image);
        assertEquals(List.of(), judged.failed(), judged.text());
        assertTrue(judged.undecided().contains("ext.gd.checksum"), judged.text());
        var tree = judged.volume().capability(Files.class).orElseThrow().tree(Progress.NONE);
        assertTrue(tree.find("docs/sub/big.bin").isPresent());
    }

    @Test
    void aLostBitmapIsUnknownNotFree() {
        DiskFile image = DiskFile.of(ExtImages.image("e4")).unread(SectorRanges.of(16, 8));
        var allocation = Forced.open(image).capability(sectorglass.disk.Allocation.class).orElseThrow();
        assertEquals(2048L * 8, allocation.unknown().count());
        assertFalse(allocation.free().contains(200 * 8));
    }
}
