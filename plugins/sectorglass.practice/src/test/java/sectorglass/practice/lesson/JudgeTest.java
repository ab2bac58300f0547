package sectorglass.practice.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.disk.Repair;
import sectorglass.image.ByteRange;

/** Which wrong thought explains which answer, on the lesson disk "mbr": partition 1 begins at LBA 2048 and has 20480 sectors. */
class JudgeTest {
    private static LessonRun run;
    private static LessonRun rebuilt;

    @BeforeAll
    static void open() throws Exception {
        Lessons lessons = MadeDisks.LESSONS;
        Lesson chain = lessons.find("extended-chains").orElseThrow();
        run = MadeDisks.run(chain, Locale.ENGLISH);
        Lesson rebuild = lessons.find("rebuild-a-lost-table").orElseThrow();
        rebuilt = MadeDisks.run(rebuild, Locale.ENGLISH);
    }

    @AfterAll
    static void close() {
        run.close();
        rebuilt.close();
    }

    private static Step step(Task task) {
        return new Step("s", Words.english("x"), "mbr / slots[0].first", null, task, Words.english("ask"), null, Words.english("Otherwise."), List.of(),
                List.of(), 1);
    }

    private static Judgement number(String unit, String typed) {
        return run.judge(step(new Task.TypeNumber("value(mbr / slots[0].first)", unit)), new Answer.Typed(typed));
    }

    @ParameterizedTest
    @CsvSource(delimiter = ';', value = {"2048", "0x800", "800h", "2 048", "2\u2009048", "2\u00A0048", "2,048", "2.048", "2'048", "LBA 2048", "lba 0x800", " 2048 ",
        "2048 sectors", "2048 Sektoren", "02048"})
    void takesANumberInEveryForm(String typed) {
        assertTrue(number("lba", typed).right(), typed);
    }

    @ParameterizedTest
    @CsvSource({"800", "0x800", "800h", "0800"})
    void takesHexWithoutAMarkWhereHexIsAsked(String typed) {
        assertTrue(number("hex", typed).right(), typed);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = ';', value = {
        "524288;swapped", // 00 08 00 00 read as big-endian
        "800;other-base",
        "0x2048;other-base",
        "2049;one-more",
        "2047;one-less",
        "1048576;sector-byte",
        "4;sector-byte",
        "16384;sector-size",
        "256;sector-size",
        "2560;off-by-sector",
        "1536;off-by-sector",
        "6144;off-by-sector",
        "about 2048;no-number",
        "20 48;no-number",
        "2.04;no-number",
        "-2048;no-number",
        "99999999999999999999;no-number",
        "0x;no-number",
        "'';no-number",
        "1234567;",
    })
    void explainsAWrongNumber(String typed, String pattern) {
        Judgement said = number("lba", typed);
        assertFalse(said.right());
        assertEquals(pattern, said.pattern());
        assertEquals(pattern == null, said.explanation().equals("Otherwise."), said.explanation());
    }

    @Test
    void explainsCountingFromThePartition() {
        Step first = new Step("s", Words.english("x"), "partition 1", null, new Task.TypeNumber("lba(fat16_table)", "lba"), Words.english("ask"), null,
                Words.english("Otherwise."), List.of(), List.of(), 1);
        assertEquals("one-more", run.judge(first, new Answer.Typed("2050")).pattern());
        assertEquals("from-partition", run.judge(first, new Answer.Typed("1")).pattern(), "2049 - 2048");
        assertEquals("from-disk", run.judge(first, new Answer.Typed("4097")).pattern(), "2049 + 2048");
    }

    @ParameterizedTest(name = "byte {0}: {1}")
    @CsvSource({
        "509, byte-before", "512, byte-behind", "1296, offset-base", // 0x510 for 510
        "2048400, ", "11534846, other-sector", // byte 510 of LBA 22528
        "440, other-field", "450, other-field", "-1, outside", "33554432, outside",
        "1050000, other-field", // in the first FAT
    })
    void explainsAWrongByte(long at, String pattern) {
        Judgement said = run.judge(step(new Task.ClickByte("mbr / signature")), new Answer.OnByte(at));
        assertFalse(said.right());
        assertEquals(pattern, said.pattern());
        assertEquals(pattern == null, said.explanation().equals("Otherwise."), said.explanation());
    }

    @ParameterizedTest(name = "{0} + {1}: {2}")
    @CsvSource({
        "446, 15, too-short", "446, 17, too-long", "445, 17, wrong-start", "447, 16, shifted", "445, 16, shifted", "448, 4, only-a-part",
        "440, 40, more-than", "446, 0, nothing-selected", "462, 16, byte-behind", "510, 2, other-field",
    })
    void explainsAWrongRange(long start, long length, String pattern) {
        Judgement said = run.judge(step(new Task.SelectBytes("mbr / slots[0]")), new Answer.Selected(new ByteRange(start, length)));
        assertFalse(said.right());
        assertEquals(pattern, said.pattern());
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"aa 55, bytes-reversed", "55, too-little", "55 AA 00, too-much", "' ', empty", "AB CD, "})
    void explainsWrongBytes(String typed, String pattern) {
        Step step = step(new Task.TypeText("bytes(mbr / signature)"));
        assertTrue(run.judge(step, new Answer.Typed("55aa")).right());
        assertTrue(run.judge(step, new Answer.Typed("0x55 0xAA")).right());
        assertEquals(pattern, run.judge(step, new Answer.Typed(typed)).pattern());
    }

    @Test
    void anAnswerOfAnotherKindSaysWhatIsAsked() {
        Judgement said = run.judge(step(new Task.ClickByte("mbr / signature")), new Answer.Typed("510"));
        assertEquals("other-kind", said.pattern());
        assertEquals("Here a byte is asked for. Put the caret on it.", said.explanation());
    }

    private static Judgement rebuild(String step, Repair.Change... changes) {
        return rebuilt.judge(rebuilt.lesson().step(step).orElseThrow(), new Answer.Changed(List.of(changes)));
    }

    private static Repair.Change at(long at, int... bytes) {
        byte[] all = new byte[bytes.length];
        for (int i = 0; i < bytes.length; i++) {
            all[i] = (byte) bytes[i];
        }
        return new Repair.Change(at, all, "");
    }

    private static final Repair.Change TYPE = at(450, 6);
    private static final Repair.Change FIRST = at(454, 0, 8, 0, 0);
    private static final Repair.Change SECTORS = at(458, 0, 0x50, 0, 0);

    @Test
    void takesACorrectionInWhateverPiecesItIsMade() {
        assertTrue(rebuild("slot-one", TYPE, FIRST, SECTORS).right());
        assertTrue(rebuild("slot-one", at(455, 8), at(459, 0x50), TYPE).right(), "single bytes");
        assertTrue(rebuild("slot-one", at(450, 6, 0, 0, 0, 0, 8, 0, 0, 0, 0x50, 0, 0)).right(), "one range over all");
    }

    @Test
    void leavesTheCorrectionsOfOtherStepsInPeace() {
        Repair.Change type = at(466, 7);
        Repair.Change first = at(470, 0, 0x60, 0, 0);
        Repair.Change sectors = at(474, 0, 0x90, 0, 0);
        assertTrue(rebuild("slot-two", TYPE, FIRST, SECTORS, type, first, sectors).right(), "what the step before asked for still stands");
        assertEquals("changed-other-field", rebuild("slot-two", at(450, 7), type, first, sectors).pattern(), "but not something else in its place");
    }

    @Test
    void explainsAWrongCorrection() {
        assertEquals("field-left", rebuild("slot-one", TYPE, FIRST).pattern());
        assertEquals("written-swapped", rebuild("slot-one", TYPE, at(454, 0, 0, 8, 0), SECTORS).pattern());
        assertEquals("one-more", rebuild("slot-one", TYPE, FIRST, at(458, 1, 0x50, 0, 0)).pattern());
        assertEquals("nothing-changed", rebuild("slot-one").pattern());
        assertEquals("nothing-changed", rebuild("slot-one", at(450, 0)).pattern(), "the byte that stands there anyway");
        assertEquals("own", rebuild("slot-one", at(498, 6)).pattern(), "the fourth slot");
        assertEquals("changed-elsewhere", rebuild("slot-one", at(2_000_000, 1)).pattern());
        assertFalse(rebuild("slot-one", TYPE, FIRST, SECTORS, at(1048576, 0)).right(), "a harm besides");
        assertEquals("outside", rebuild("slot-one", at(-5, 1)).pattern());
        assertEquals("outside", rebuild("slot-one", at(Long.MAX_VALUE - 1, 1)).pattern());
    }

    @Test
    void aMistakeOfTheLessonIsNoMistakeOfThePerson() {
        Step step = step(new Task.ClickByte("partition 9"));
        assertThrows(LessonException.class, () -> run.judge(step, new Answer.OnByte(1)));
        Step finding = step(new Task.ChooseFinding("gpt.header.crc32", null));
        assertThrows(LessonException.class, () -> run.judge(finding, new Answer.Chosen("mbr.chs", 1)));
    }
}
