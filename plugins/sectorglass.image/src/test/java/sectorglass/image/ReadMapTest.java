package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReadMapTest {
    @TempDir
    Path folder;

    private Path map(String text) {
        return TestFiles.write(folder.resolve("map.csv"), text);
    }

    private ReadMapFile.Loaded load(String text) throws ImageException {
        return ReadMapFile.read(map(text), Locale.ENGLISH);
    }

    @Test
    void readsStatesAndHeads() throws Exception {
        ReadMap map = load("first_lba,sectors,state,head\n0,10,read,0\n10,5,failed,1\n15,5,skipped\n20,2,unread,\n").map();
        assertEquals(ReadState.READ, map.state(9));
        assertEquals(ReadState.FAILED, map.state(10));
        assertEquals(ReadState.SKIPPED, map.state(19));
        assertEquals(ReadState.UNREAD, map.state(21));
        assertEquals(0, map.head(0));
        assertEquals(1, map.head(14));
        assertEquals(ReadMap.NO_HEAD, map.head(15));
        assertEquals(22, map.end());
        assertEquals(5, map.count(ReadState.SKIPPED));
    }

    @Test
    void takesByteOrderMarksCarriageReturnsCommentsBlanksQuotesAndOtherColumnOrder() throws Exception {
        String text = "\uFEFF# made by hand\r\n\r\n  # another\r\nstate , sectors,first_lba\r\n\"read\",\"10\", 0 \r\nFAILED,1,10";
        ReadMapFile.Loaded loaded = load(text);
        assertEquals(SectorRanges.of(0, 10), loaded.map().inState(ReadState.READ, new SectorRange(0, 20)));
        assertEquals(ReadState.FAILED, loaded.map().state(10));
        assertEquals(java.util.List.of(), loaded.remarks());
    }

    @Test
    void takesLinesThatEndWithCarriageReturnsAlone() throws Exception {
        assertEquals(3, load("0,1,read\r1,1,failed\r2,1,read").map().end());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {
        "0,1,read;-5,1,read| line 2: first_lba", "0,1,read;5,-1,read| line 2: sectors", "0,1,read;;#;5,1,bad| line 4: the state \"bad\"",
        "0,1,read;99999999999999999999,1,read| line 2: first_lba", "9223372036854775807,1,read| line 1: 1 sectors from LBA",
        "0,1| line 1: fewer than three fields", "0,1,read;0x10,1,read| line 2: first_lba", "0,1.5,read| line 1: sectors",
        "0,1,read,99999| line 1: head", "first_lba,state;0,read| line 1: the title line lacks the column sectors",
        "a,b,c| line 1: first_lba", "\"0,1,read| line 1: fewer than three", "first_lba,sectors,state| holds no line"})
    void namesTheLineThatCannotBeRead(String text, String expected) {
        String sentence = assertThrows(ImageException.class, () -> load(text.replace(';', '\n'))).getMessage();
        assertTrue(sentence.contains(expected.strip()), sentence);
    }

    @Test
    void refusesUtf16AndEndlessLines() throws Exception {
        Path file = Files.write(folder.resolve("wide.csv"), "\uFEFF0,1,read".getBytes(StandardCharsets.UTF_16LE));
        assertTrue(assertThrows(ImageException.class, () -> ReadMap.load(file)).getMessage().contains("UTF-16"));
        String endless = assertThrows(ImageException.class, () -> load("0,1,read\n" + "7".repeat(300_000))).getMessage();
        assertTrue(endless.contains("line 2") && endless.contains("65,536"), endless);
    }

    @Test
    void theStateThatPromisesLessCountsWhereLinesOverlap() throws Exception {
        for (String text : new String[] {"0,100,read\n50,10,failed\n", "50,10,failed\n0,100,read\n"}) {
            ReadMapFile.Loaded loaded = load(text);
            assertEquals(SectorRanges.of(50, 10), loaded.map().inState(ReadState.FAILED, new SectorRange(0, 100)));
            assertEquals(90, loaded.map().count(ReadState.READ));
            assertTrue(loaded.remarks().get(0).contains("line 2: LBA 50") && loaded.remarks().get(0).contains("10 sectors"),
                    loaded.remarks()::toString);
        }
    }

    @Test
    void sectorsNotMentionedAreUnreadAndTold() throws Exception {
        ReadMapFile.Loaded loaded = load("0,10,read\n20,10,read\n");
        assertEquals(SectorRanges.of(10, 10), loaded.map().inState(ReadState.UNREAD, new SectorRange(0, 30)));
        assertFalse(loaded.map().mentions(15));
        assertTrue(loaded.remarks().get(0).contains("10 sectors before its end, the first is LBA 10"), loaded.remarks()::toString);
    }

    @Test
    void noticesBytesWrittenForSectors() throws Exception {
        Path image = TestFiles.numbered(folder.resolve("a.img"), 64 * 512);
        Path bytes = map("0,16384,read\n16384,16384,failed\n");
        String sentence = assertThrows(ImageException.class,
                () -> Images.open(image, OpenOptions.DEFAULT.withReadMap(bytes))).getMessage();
        assertTrue(sentence.contains("probably bytes"), sentence);
        try (OpenImage open = Images.open(image, OpenOptions.DEFAULT.withReadMap(map("0,100001,read")))) {
            assertTrue(open.remarks().stream().anyMatch(r -> r.contains("more than 256 times")), open.remarks()::toString);
        }
        try (OpenImage open = Images.open(image, OpenOptions.DEFAULT.withReadMap(map("0,128,read")))) {
            assertTrue(open.remarks().stream().anyMatch(r -> r.contains("64 behind its end")), open.remarks()::toString);
            assertEquals(SectorRanges.of(64, 64), open.inState(ReadState.UNREAD, new SectorRange(0, 128)));
        }
    }

    @Test
    void statesOfAMapReachTheWindowAndHideFiller() throws Exception {
        Path image = TestFiles.numbered(folder.resolve("a.img"), 64 * 512);
        try (OpenImage open = Images.open(image, OpenOptions.DEFAULT.withReadMap(map("0,10,read\n10,5,failed\n15,40,read\n")))) {
            Window window = open.window(0, 64 * 512);
            assertEquals("[10..14, 55..63]", window.missing(0, 64 * 512).toString());
            assertEquals(ReadState.FAILED, window.state(12 * 512));
            assertEquals(ReadState.UNREAD, window.state(60 * 512));
            assertThrows(UnreadException.class, () -> window.u8(10 * 512));
            assertEquals(0, window.raw(10 * 512 + 7, 1)[0]);
            assertEquals(TestFiles.number(9 * 512), window.bytes(9 * 512, 1)[0]);
            assertTrue(open.remarks().stream().anyMatch(r -> r.contains("ends at LBA 55")), open.remarks()::toString);
        }
    }

    @Test
    void writesWhatItReads() throws Exception {
        ReadMap map = load("0,10,read,0\n10,5,failed,1\n30,5,skipped\n").map();
        Path copy = folder.resolve("copy.csv");
        map.save(copy);
        assertEquals("first_lba,sectors,state,head\n0,10,read,0\n10,5,failed,1\n30,5,skipped,\n", Files.readString(copy));
        assertEquals(1, ReadMap.load(copy).head(12));
        ReadMap.of(SectorRanges.of(3, 4), ReadState.READ).save(copy);
        assertEquals("first_lba,sectors,state\n3,4,read\n", Files.readString(copy));
    }
}
