package sectorglass.practice.lesson;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.image.ReadState;
import sectorglass.practice.lesson.place.Expressions;
import sectorglass.practice.lesson.place.Ground;

/** What docs/lessons-format.md promises to a teacher holds: its examples are read and played as they stand there. */
class TeachersLessonTest {
    @TempDir
    private Path folder;

    /** The first block of code below a heading of the document. */
    private static String example(String heading) throws Exception {
        String page = Files.readString(Path.of(System.getProperty("house"), "docs", "lessons-format.md"));
        int from = page.indexOf("```\n", page.indexOf("\n## " + heading + "\n")) + 4;
        return page.substring(from, page.indexOf("```", from));
    }

    @Test
    void theDocumentedExamplesArePlayed() throws Exception {
        Files.writeString(folder.resolve("mark.lesson"), example("A lesson"));
        Files.writeString(folder.resolve("second.lesson"), example("A lesson").replace("my-first-lesson", "my-second-lesson").replace("disk: mbr", "disk: two-letters"));
        Files.writeString(folder.resolve("two-letters.disk"), example("A disk"));
        Files.writeString(folder.resolve("own.terms"), example("Terms").replace("term: sector", "term: mark").replace("name: sector", "name: mark"));
        Lessons lessons = Lessons.ofProviders(folder);
        assertEquals("[]", lessons.problems().toString());
        assertTrue(lessons.find("mbr").isPresent(), "the product's lessons are there, too");
        assertTrue(lessons.glossary().find("mark", Locale.ENGLISH).isPresent());
        for (String id : new String[] {"my-first-lesson", "my-second-lesson"}) {
            Lesson lesson = lessons.find(id).orElseThrow();
            try (LessonRun run = LessonRun.open(lesson, lessons.disk(lesson, folder.resolve("disks")), Locale.GERMAN)) {
                Step step = lesson.steps().get(0);
                assertEquals("Ein Bootsektor endet mit einer *Marke* von zwei Bytes: `55 AA`.", run.text(step.text()));
                assertTrue(run.judge(step, new Answer.OnByte(510)).right());
                assertEquals("Das ist ihr zweites Byte.", run.judge(step, new Answer.OnByte(511)).explanation());
            }
        }
    }

    @Test
    void aDiskIsWhatItsFileSays() throws Exception {
        Files.writeString(folder.resolve("mark.lesson"), example("A lesson").replace("disk: mbr", "disk: two-letters"));
        Files.writeString(folder.resolve("two-letters.disk"), example("A disk"));
        Lessons lessons = Lessons.of(java.util.List.of(new FolderLessons(folder)));
        Lesson lesson = lessons.all().get(0);
        LessonDisk one = lessons.disk(lesson, folder.resolve("one"));
        byte[] first = Files.readAllBytes(one.image());
        Files.write(one.image(), new byte[] {1, 2, 3});
        assertArrayEquals(first, Files.readAllBytes(lessons.disk(lesson, folder.resolve("one")).image()), "broken by its reader and made anew");
        assertArrayEquals(first, Files.readAllBytes(lessons.disk(lesson, folder.resolve("two")).image()), "the same bytes in another place");
        try (LessonRun run = LessonRun.open(lesson, one, Locale.ENGLISH)) {
            assertEquals(65536, run.disk().image().sectors());
            assertEquals(99, run.disk().partitions().get(0).range().count(), "the damage");
            assertEquals(ReadState.FAILED, run.disk().image().state(2049), "partition 1 + 512 .. 1023 is its second sector");
            assertEquals(ReadState.READ, run.disk().image().state(2048));
            assertEquals(ReadState.READ, run.disk().image().state(2050));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"lba 65536", "byte 99999999999999", "partition 9", "lba (0 - 1)", "sector 9223372036854775807 of partition 1", "gpt_header",
        "mbr #2", "mbr / nothing", "mbr / slots[9]", "mbr / slots[0].first + 40000000", "lba 0 + 4 .. 2", "lba 0 for 0", "record of \"none\" of partition 1",
        "content of \"none.txt\" of partition 1", "cluster 99999999 of partition 1", "lba (9223372036854775807 * 2)", "lba (1 / 0)", "lba value(mbr / signature)"})
    void aPlaceThatIsNotThereIsTold(String place) throws Exception {
        Lessons lessons = MadeDisks.LESSONS;
        try (LessonRun run = MadeDisks.run(lessons.find("mbr").orElseThrow(), Locale.ENGLISH)) {
            Ground ground = WrongAnswers.ground(run);
            LessonException told = assertThrows(LessonException.class, () -> Expressions.place(place).in(ground), place);
            assertFalse(told.getMessage().isBlank());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "lba", "lba x", "partition", "lba 1 +", "lba 1 + 2 ..", "lba 99999999999999999999", "mbr /", "mbr # 0", "record 5", "content of a of partition 1",
        "lba 1 lba 2", "lba ((((1)", "\"text\"", "lba 1; 2", "lba 1 + 2 .. 3 .. 4"})
    void whatIsNoPlaceIsToldWhenTheFileIsRead(String place) {
        assertThrows(IllegalArgumentException.class, () -> Expressions.place(place), place);
    }

    @Test
    void longAndDeepExpressionsAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> Expressions.number("(".repeat(400) + "1" + ")".repeat(400)));
        assertThrows(IllegalArgumentException.class, () -> Expressions.number("1 + ".repeat(5000) + "1"));
    }
}
