package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TextLogTest {
    private static final Map<String, ReadState> WORDS = Map.of("ok", ReadState.READ, "BAD", ReadState.FAILED, "later", ReadState.SKIPPED);
    @TempDir
    Path folder;

    private Path log(String text) {
        return TestFiles.write(folder.resolve("log.txt"), text);
    }

    private TextLog.Loaded load(TextLog reading, String text) throws ImageException {
        return reading.load(log(text), 512, Locale.ENGLISH, Progress.NONE);
    }

    private static String states(ReadMap map) {
        StringBuilder text = new StringBuilder();
        map.visit((first, end, state, head) -> text.append(first).append('-').append(end - 1).append(' ').append(state.word()).append("; "));
        return text.toString().strip();
    }

    @Test
    void readsBlankSeparatedHexadecimalBytesWithEnds() throws Exception {
        TextLog reading = TextLog.DEFAULT.withDelimiter(" ").withSkipped(2, ";").withColumns(2, 3, TextLog.Size.LAST, 1)
                .withNumbers(16, TextLog.Unit.BYTES).withWords(WORDS, null);
        String text = "some title\nstate from to\n; remark\nok   0x0  0x3FF\n\nBad\t400 5ff\r\nLATER 0600 0x7FF\nok 800 fff\n";
        assertEquals("0-1 read; 2-2 failed; 3-3 skipped; 4-7 read;", states(load(reading, text).map()));
    }

    @ParameterizedTest
    @CsvSource({"LENGTH,10,10-19", "LAST,19,10-19", "END,20,10-19"})
    void theSizeColumnMayHoldALengthOrAnEnd(TextLog.Size size, long value, String expected) throws Exception {
        TextLog reading = TextLog.DEFAULT.withColumns(1, 2, size, 3);
        assertEquals(expected + " read;", states(load(reading, "10," + value + ",read").map()));
    }

    @Test
    void aListOfSectorsWithoutLengthOrStateIsALogToo() throws Exception {
        TextLog reading = TextLog.DEFAULT.withColumns(1, 0, TextLog.Size.LENGTH, 0).withWords(Map.of(), ReadState.FAILED);
        assertEquals("3-4 failed; 9-9 failed;", states(load(reading, "3\n9\n4\n").map()));
    }

    @Test
    void aSectorReadInTwoStepsCountsAsReadAndOneReadInPartDoesNot() throws Exception {
        TextLog reading = TextLog.DEFAULT.withNumbers(10, TextLog.Unit.BYTES);
        assertEquals("0-3 read;", states(load(reading, "0,700,read\n700,1348,read").map()));
        assertEquals("0-0 read; 1-1 failed; 2-3 read;", states(load(reading, "0,700,read\n700,200,failed\n900,1148,read").map()));
        assertEquals("0-0 read;", states(load(reading, "0,1000,read\n1000,23,read").map()));
    }

    @Test
    void theLaterLineCounts() throws Exception {
        TextLog.Loaded loaded = load(TextLog.DEFAULT, "0,100,failed\n10,10,read\n12,2,skipped\n");
        assertEquals("0-9 failed; 10-11 read; 12-13 skipped; 14-19 read; 20-99 failed;", states(loaded.map()));
        assertTrue(loaded.remarks().get(0).contains("line 2: LBA 10"), loaded.remarks()::toString);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"0,5,read;x,5,read|line 2: column 1", "0,5,read;-1,5,read|line 2: column 1",
        "0,5,maybe|line 1: column 3: no state is set for the word \"maybe\"", "0,5|line 1: 2 fields, but column 3",
        "1,9223372036854775807,read|line 1: 9,223,372,036,854,775,807 from 1 on", "#;;0,1,read;0x1,1,read|line 4: column 1",
        "1.000,5,read|line 1: column 1", "99999999999999999999,1,read|line 1: column 1"})
    void namesTheLineThatCannotBeRead(String text, String expected) {
        String sentence = assertThrows(ImageException.class, () -> load(TextLog.DEFAULT, text.replace(';', '\n'))).getMessage();
        assertTrue(sentence.contains(expected), sentence);
    }

    @Test
    void anEndBeforeItsStartIsTold() {
        TextLog reading = TextLog.DEFAULT.withColumns(1, 2, TextLog.Size.END, 3);
        String sentence = assertThrows(ImageException.class, () -> load(reading, "10,9,read")).getMessage();
        assertTrue(sentence.contains("line 1: the end 9 lies before the start 10"), sentence);
    }

    @Test
    void badLinesMayBeLeftOutAndAreTold() throws Exception {
        StringBuilder text = new StringBuilder("0,10,read\n");
        for (int i = 0; i < 30; i++) {
            text.append("noise ").append(i).append('\n');
        }
        text.append("10,10,failed\n");
        TextLog.Loaded loaded = load(TextLog.DEFAULT.withTolerant(true), text.toString());
        assertEquals("0-9 read; 10-19 failed;", states(loaded.map()));
        assertEquals(30, loaded.badLines());
        assertEquals(2, loaded.lines());
        assertTrue(loaded.remarks().get(0).contains("line 2:"), loaded.remarks()::toString);
        assertTrue(loaded.remarks().get(20).contains("10 more lines"), loaded.remarks()::toString);
        assertTrue(assertThrows(ImageException.class, () -> load(TextLog.DEFAULT.withTolerant(true), "a\nb\n")).getMessage()
                .contains("holds no line that this reading understands"));
    }

    @Test
    void thePreviewShowsFieldsStatesAndProblems() throws Exception {
        List<TextLog.Line> lines = TextLog.DEFAULT.withDelimiter(";").withSkipped(1, "#").preview(
                log("start;sectors;state\n#c\n0;8;read\n8; 8 ;\u001B[31mred\n"), 10, Locale.ENGLISH);
        assertEquals(List.of("start", "sectors", "state"), lines.get(0).fields());
        assertEquals(null, lines.get(1).state());
        assertEquals(ReadState.READ, lines.get(2).state());
        assertEquals(8, lines.get(2).length());
        assertEquals(List.of("8", "8", "\\u{1B}[31mred"), lines.get(3).fields());
        assertTrue(lines.get(3).problem().contains("column 3"));
        assertEquals(2, TextLog.DEFAULT.preview(log("a\nb\nc\n"), 2, Locale.ENGLISH).size());
    }

    @Test
    void quotedFieldsMayHoldTheDelimiter() throws Exception {
        TextLog reading = TextLog.DEFAULT.withColumns(2, 3, TextLog.Size.LENGTH, 4);
        assertEquals("5-6 read;", states(load(reading, "\"a, b\",\"5\",2,\"read\"").map()));
    }

    @Test
    void longLogsNeedLittleMemory() throws Exception {
        Path file = folder.resolve("long.txt");
        try (BufferedWriter out = Files.newBufferedWriter(file)) {
            for (int i = 0; i < 1_500_000; i++) {
                out.write(i * 8L + " 8 " + (i % 1000 == 0 ? "BAD" : "ok") + " some further words that nobody asked for\n");
            }
        }
        TextLog reading = TextLog.DEFAULT.withDelimiter(" ").withWords(WORDS, null);
        ReadMap map = reading.load(file, 512, Locale.ENGLISH, Progress.NONE).map();
        assertEquals(3000, map.runs());
        assertEquals(12_000, map.count(ReadState.FAILED));
    }

    @Test
    void aLogGivesAnImageItsStates() throws Exception {
        Path image = TestFiles.numbered(folder.resolve("a.img"), 20 * 512);
        TextLog reading = TextLog.DEFAULT.withWords(WORDS, null);
        OpenOptions options = OpenOptions.DEFAULT.withLog(log("0,5,ok\n5,5,bad\n10,10,ok\n"), reading);
        try (OpenImage open = Images.open(image, options)) {
            assertEquals(SectorRanges.of(5, 5), open.inState(ReadState.FAILED, open.all()));
            assertEquals(ReadStateSources.Kind.TEXT_LOG, open.states().deciding(7).kind());
        }
        Path map = TestFiles.write(folder.resolve("m.csv"), "0,6,read\n6,14,skipped\n");
        try (OpenImage open = Images.open(image, options.withReadMap(map))) {
            assertEquals("[6..19]", open.inState(ReadState.SKIPPED, open.all()).toString(), "the read map is stronger");
            assertTrue(open.remarks().stream().anyMatch(r -> r.contains("give 15 sectors different states, the first is LBA 5")),
                    open.remarks()::toString);
        }
    }

    @Test
    void readingsThatAreNoneAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> TextLog.DEFAULT.withDelimiter("::"));
        assertThrows(IllegalArgumentException.class, () -> TextLog.DEFAULT.withNumbers(7, TextLog.Unit.BYTES));
        assertThrows(IllegalArgumentException.class, () -> TextLog.DEFAULT.withColumns(0, 1, TextLog.Size.END, 2));
        assertThrows(IllegalArgumentException.class, () -> OpenOptions.DEFAULT.withLog(folder, null));
    }
}
