package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.Changes;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.growth.Since;
import sectorglass.recovery.growth.Standing;
import sectorglass.testkit.Tool;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/**
 * A card that another process is still imaging: what became known between two looks. mkfs.fat and mcopy make the card; which photos are
 * complete at a length follows from their clusters, which mshowfat tells.
 */
class GrowingImageTest {
    private static final int DATA = 64 * 512;
    private final Survey survey = Survey.ofProviders();

    @TempDir
    Path folder;

    private Findings verify(Disk disk) {
        return survey.verify(disk, Level.QUICK, RuleBook.ofProviders(Locale.ENGLISH), Progress.NONE);
    }

    @Test
    void sectorsGainedFindingsSettledAndFilesCompletedAreTold() throws Exception {
        Tool.require("mkfs.fat", "mcopy");
        Path card = folder.resolve("card.img");
        Tool.run("mkfs.fat", "-C", "-F", "16", "-s", "1", "--invariant", card.toString(), "4096").ok();
        for (int i = 0; i < 8; i++) {
            byte[] photo = new byte[DATA];
            new Random(i).nextBytes(photo);
            Path file = Files.write(folder.resolve("PHOTO" + i + ".JPG"), photo);
            Tool.run("mcopy", "-i", card.toString(), file.toString(), "::/").ok();
        }
        byte[] whole = Files.readAllBytes(card);
        long first = firstData(whole);
        int cut = (int) (first + 3 * DATA + 1024);
        Path image = Files.write(folder.resolve("growing.img"), Arrays.copyOf(whole, cut));
        try (OpenImage open = Images.open(image)) {
            Disk disk = survey.disk(open, Progress.NONE);
            Standing before = Standing.of(disk, verify(disk), Progress.NONE);
            Changes none = open.refresh();
            Since same = Since.of(before, none, disk, verify(disk), Progress.NONE);
            assertTrue(same.isEmpty(), same.toString());

            int more = (int) (first + 6 * DATA);
            Files.write(image, Arrays.copyOfRange(whole, cut, more), StandardOpenOption.APPEND);
            Changes grown = open.refresh();
            Disk now = survey.disk(open, Progress.NONE);
            Since since = Since.of(before, grown, now, verify(now), Progress.NONE);
            assertEquals(SectorRanges.of(cut / 512, (more - cut) / 512), since.sectors().gained());
            Set<String> completed = new TreeSet<>();
            since.completed().forEach(file -> completed.add(file.path()));
            assertEquals(Set.of("PHOTO3.JPG", "PHOTO4.JPG", "PHOTO5.JPG"), completed);
            assertEquals(3, since.completedCount());
            assertEquals((first + 3 * DATA) / 512, since.completed().stream().filter(f -> f.path().equals("PHOTO3.JPG")).findFirst()
                    .orElseThrow().firstLba());

            Standing later = Standing.of(now, verify(now), Progress.NONE);
            Files.write(image, Arrays.copyOfRange(whole, more, whole.length), StandardOpenOption.APPEND);
            Changes end = open.refresh();
            Disk full = survey.disk(open, Progress.NONE);
            Since rest = Since.of(later, end, full, verify(full), Progress.NONE);
            assertEquals(2, rest.completedCount());
            assertTrue(rest.resolved().stream().anyMatch(f -> f.check().equals("fat.volume-fits-partition")), rest.toString());
            assertFalse(rest.isEmpty());
        }
    }

    @Test
    void aFatThatWasNotReadSettlesItsFindings() throws Exception {
        Tool.require("mkfs.fat");
        Path card = folder.resolve("card.img");
        Tool.run("mkfs.fat", "-C", "-F", "16", "-s", "1", "--invariant", card.toString(), "4096").ok();
        byte[] whole = Files.readAllBytes(card);
        Path image = Files.write(folder.resolve("growing.img"), Arrays.copyOf(whole, 512 * 5));
        try (OpenImage open = Images.open(image)) {
            Disk disk = survey.disk(open, Progress.NONE);
            Findings first = verify(disk);
            assertTrue(first.counts().notChecked() > 0, first.counts().toString());
            Standing before = Standing.of(disk, first, Progress.NONE);
            Files.write(image, Arrays.copyOfRange(whole, 512 * 5, whole.length), StandardOpenOption.APPEND);
            Changes grown = open.refresh();
            Disk now = survey.disk(open, Progress.NONE);
            Since since = Since.of(before, grown, now, verify(now), Progress.NONE);
            assertFalse(since.settled().isEmpty());
            assertTrue(since.settled().stream().allMatch(f -> f.verdict() == Verdict.PASSED), since.settled().toString());
        }
    }

    /** Microsoft FAT specification 1.03, section 3.5: reserved sectors, FATs, root directory, data. */
    private static long firstData(byte[] boot) {
        return 512L * (u16(boot, 14) + (boot[16] & 0xFF) * u16(boot, 22)) + u16(boot, 17) * 32L;
    }

    private static int u16(byte[] bytes, int at) {
        return bytes[at] & 0xFF | (bytes[at + 1] & 0xFF) << 8;
    }
}
