package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Level;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;

/** Unread sectors only take verdicts away: nothing fails that did not fail before, and what is named as missing was unread. */
class UnreadTest {
    @TempDir
    static Path folder;

    @Test
    void nothingFailsBecauseSectorsAreUnread() throws IOException {
        MemoryImage sound = MemoryImage.of(Volumes.withFiles(folder));
        long record = 16384 + 65 * 1024;
        for (MemoryImage image : List.of(sound, sound.with(record + 0x2C, 99), sound.with(2055 * 4096 + 1088, 0xFE), sound.with(record + 344 + 24, 99))) {
            Set<String> failed = failed(Volumes.verify(image, Level.FULL).all());
            Random random = new Random(3);
            for (int round = 0; round < 24; round++) {
                SectorRanges any = SectorRanges.EMPTY;
                for (int i = 0; i <= round % 6; i++) {
                    long[] starts = {0, 32 + random.nextInt(140), 32 + 2 * 65, 2053 * 8 + random.nextInt(20), 2055 * 8, 8191 * 8 + random.nextInt(8),
                        131071, 2056 * 8 + random.nextInt(500)};
                    any = any.union(SectorRanges.of(starts[random.nextInt(starts.length)], 1 + random.nextInt(3))).intersect(image.all());
                }
                SectorRanges unread = any;
                if (unread.contains(0) && unread.contains(131071)) {
                    continue; // no boot sector is left, so no volume
                }
                for (Finding f : Volumes.verify(image.without(unread), Level.FULL).all()) {
                    assertTrue(f.verdict() != Verdict.FAILED || failed.contains(f.check()),
                            () -> "fails only because of unread sectors: " + f.check() + ": " + f.what());
                    SectorRanges beyond = f.missing().minus(unread);
                    assertTrue(beyond.isEmpty(), () -> f.check() + " names sectors that were read: " + beyond);
                }
            }
        }
    }

    private static Set<String> failed(List<Finding> findings) {
        Set<String> failed = new HashSet<>();
        findings.stream().filter(f -> f.verdict() == Verdict.FAILED).forEach(f -> failed.add(f.check()));
        return failed;
    }
}
