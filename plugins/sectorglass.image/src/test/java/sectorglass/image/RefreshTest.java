package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Images that another process is still writing. */
class RefreshTest {
    @TempDir
    Path folder;

    private static void append(Path file, long from, int count) throws Exception {
        Files.write(file, TestFiles.numbers(from, count), StandardOpenOption.APPEND);
    }

    @Test
    void growthIsTakenInByARefreshOnly() throws Exception {
        Path file = TestFiles.numbered(folder.resolve("a.img"), 10 * 512 + 100);
        try (OpenImage image = Images.open(file)) {
            append(file, 10 * 512 + 100, 5 * 512);
            assertEquals(10 * 512 + 100, image.bytes());
            assertEquals(ReadState.UNREAD, image.sector(11).state(0));
            Changes changes = image.refresh();
            assertEquals(15 * 512 + 100, image.bytes());
            assertEquals(SectorRanges.of(10, 5), changes.gained());
            assertEquals(SectorRanges.of(10, 5), changes.changed());
            assertArrayEquals(TestFiles.numbers(5120, 2560), image.window(5120, 2560).bytes(0, 2560));
            assertTrue(image.refresh().isEmpty());
        }
    }

    @Test
    void aSetGrowsByItsLastPartAndByFurtherParts() throws Exception {
        Path first = Files.write(folder.resolve("d.001"), TestFiles.numbers(0, 2048));
        try (OpenImage image = Images.open(first)) {
            append(first, 2048, 2048);
            Files.write(folder.resolve("d.002"), TestFiles.numbers(4096, 4096));
            Files.write(folder.resolve("d.003"), TestFiles.numbers(8192, 1000));
            Changes changes = image.refresh();
            assertEquals(9192, image.bytes());
            assertEquals(SectorRanges.of(4, 13), changes.gained());
            assertEquals(3, image.parts().size());
            append(folder.resolve("d.003"), 9192, 24);
            assertEquals(SectorRanges.of(17, 1), image.refresh().gained());
            assertArrayEquals(TestFiles.numbers(0, 9216), image.window(0, 9216).bytes(0, 9216));
        }
    }

    @Test
    void aRewrittenReadMapIsReadAgain() throws Exception {
        Path file = TestFiles.numbered(folder.resolve("a.img"), 20 * 512);
        Path map = TestFiles.write(folder.resolve("m.csv"), "0,10,read\n10,5,failed\n15,5,skipped\n");
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withReadMap(map))) {
            assertTrue(image.refresh().isEmpty());
            TestFiles.write(map, "0,12,read\n12,6,failed\n18,2,skipped\n");
            Files.setLastModifiedTime(map, FileTime.fromMillis(1));
            Changes changes = image.refresh();
            assertEquals("[10..11]", changes.gained().toString());
            assertEquals("[10..11, 15..17]", changes.changed().toString());
            assertEquals(ReadState.FAILED, image.state(17));
            TestFiles.write(map, "nonsense");
            assertTrue(image.refresh().isEmpty(), "a map half written changes nothing");
            assertTrue(image.troubles().get(0).contains("line 1"), image.troubles()::toString);
        }
    }

    @Test
    void aShrunkFileStaysAsLongAsItWas() throws Exception {
        Path file = TestFiles.numbered(folder.resolve("a.img"), 4096);
        try (OpenImage image = Images.open(file)) {
            Files.write(file, new byte[512]);
            assertTrue(image.refresh().isEmpty());
            assertEquals(ReadState.FAILED, image.sector(4).state(0));
        }
    }

    /** A log that grows while the imaging runs, taken in after opening: its last line may be half written. */
    @Test
    void aLogTakenInLaterIsReadAgain() throws Exception {
        Path file = Files.write(folder.resolve("a.img"), new byte[100 * 512]);
        Path log = TestFiles.write(folder.resolve("a.log"), "0,40,read\n40,10,failed\n");
        Path map = TestFiles.write(folder.resolve("a.csv"), "90,5,skipped\n");
        try (OpenImage opened = Images.open(file, OpenOptions.DEFAULT.withReadMap(map))) {
            OpenImage image = opened.withLog(log, TextLog.DEFAULT, Locale.ENGLISH, Progress.NONE).image();
            assertEquals(40, image.inState(ReadState.READ, image.all()).count());
            assertTrue(image.refresh().isEmpty());
            TestFiles.write(log, "0,40,read\n40,10,read\n50,20,read\n70,1");
            TestFiles.write(map, "90,5,skipped\n96,1,skipped\n");
            Changes changes = image.refresh();
            assertEquals("[0..69]", image.inState(ReadState.READ, image.all()).toString());
            assertEquals("[90..94, 96..96]", image.inState(ReadState.SKIPPED, image.all()).toString());
            assertTrue(!changes.isEmpty());
            assertEquals(java.util.List.of(), image.troubles());
            OpenImage again = image.withStates(image.states());
            TestFiles.write(log, "0,40,read\nnonsense\n50,20,read\n70,1");
            again.refresh();
            assertEquals("[0..69]", again.inState(ReadState.READ, again.all()).toString(), "a log that cannot be read changes nothing");
            assertTrue(again.troubles().get(0).contains("line 2"), again.troubles().toString());
            OpenImage without = image.withStates(image.states().without(ReadStateSources.Kind.TEXT_LOG));
            TestFiles.write(log, "0,100,read\n");
            without.refresh();
            assertEquals(0, without.inState(ReadState.READ, without.all()).count(), "taken out is taken out");
        }
    }
}
