package sectorglass.practice.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Mistakes in files are told with file, line and what to do; nothing else of the files is lost. */
class LessonFormatTest {
    private static final String DISK = "format: 1\ndisk: d\nsectors: 4096\nmap: none\npartition: fat12\ncluster: 2048\n";
    private static final String LESSON = """
            format: 1
            lesson: own
            order: 3
            disk: d
            title: Own
            source: common practice, no source

            step: one
            point: lba 0
            text: A text
              that goes on.
            task: number
            ask: How many?
            answer: sectors
            otherwise: Count.
            wrong: 1
            why: One is few.
            """;

    @TempDir
    private Path folder;

    private Lessons read(String lesson) throws Exception {
        Files.writeString(folder.resolve("own.lesson"), lesson);
        Files.writeString(folder.resolve("d.disk"), DISK);
        return Lessons.of(List.of(new FolderLessons(folder)));
    }

    @Test
    void readsALessonOfATeacher() throws Exception {
        Lessons lessons = read("\uFEFF# first line\r\n" + LESSON.replace("\n", "\r\n"));
        assertEquals(List.of(), lessons.problems());
        Lesson own = lessons.find("own").orElseThrow();
        assertEquals("A text that goes on.", own.steps().get(0).text().in(java.util.Locale.GERMAN));
        assertEquals("One is few.", own.steps().get(0).wrong().get(0).why().in(java.util.Locale.ENGLISH));
        assertEquals(9, own.steps().get(0).line());
    }

    @ParameterizedTest(name = "{0} becomes {1}")
    @CsvSource(delimiter = ';', value = {
        "order: 3;order: three;3;is no number",
        "disk: d;disk: nowhere;1;There is no disk",
        "disk: d;disk: ../d;4;is no name",
        "title: Own;;1;\"title:\" is missing",
        "source: common practice, no source;;1;published",
        "point: lba 0;point: lba zero;9;is no number",
        "point: lba 0;point: partition 1 / ;9;the path of a field is missing",
        "point: lba 0;pointe: lba 0;9;has no meaning here",
        "task: number;task: guess;12;is no task",
        "task: number;task: number~task: number;13;a second time",
        "answer: sectors;answer: sectors +;14;a number is missing",
        "answer: sectors;answer: (((sectors);14;is missing",
        "answer: sectors;answer: sector;14;is no number",
        "otherwise: Count.;;8;\"otherwise:\" is missing",
        "why: One is few.;;16;\"why:\" is missing",
        "text: A text;text: A *text;10;has no partner",
        "text: A text;text: A {text;10;has no partner",
        "text: A text;text: A {1 + };10;is missing",
        "text: A text;A text;10;is no line of the form",
        "step: one;step: One;8;is no name",
        "format: 1;format: 2;1;is not known",
    })
    void tellsTheLineOfAMistake(String was, String is, int line, String sentence) throws Exception {
        Lessons lessons = read(LESSON.replace(was + "\n", is == null ? "" : is.replace("~", "\n") + "\n"));
        assertTrue(lessons.problems().stream().anyMatch(p -> p.file().equals("own.lesson") && p.line() == line && p.sentence().contains(sentence)),
                "line " + line + " \"" + sentence + "\" is not in " + lessons.problems());
        assertTrue(lessons.find("own").isEmpty(), "a lesson with a mistake is left out");
    }

    @Test
    void tellsWhatIsNoText() throws Exception {
        Files.write(folder.resolve("bad.lesson"), "format: 1\nlesson: äöü".getBytes(StandardCharsets.ISO_8859_1));
        Lessons lessons = read(LESSON);
        assertEquals(List.of("bad.lesson, line 1: The file is not UTF-8 text. Save it as UTF-8."),
                lessons.problems().stream().map(LessonProblem::toString).toList());
        assertTrue(lessons.find("own").isPresent(), "the other file is read all the same");
    }

    @Test
    void tellsAFolderThatIsNotThere() {
        Lessons lessons = Lessons.of(List.of(new FolderLessons(folder.resolve("nowhere"))));
        assertEquals(1, lessons.problems().size());
        assertTrue(lessons.problems().get(0).sentence().startsWith("The folder of lessons cannot be read"));
    }

    @ParameterizedTest(name = "{0} becomes {1}")
    @CsvSource(delimiter = ';', value = {
        "sectors: 4096;sectors: 99999999999;3;must lie between 64 and",
        "map: none;map: square;4;is not known",
        "partition: fat12;partition: fat99;5;is not known",
        "cluster: 2048;cluster: 100;5;The volume cannot be made",
        "cluster: 2048;file: a;6;A file is written",
        "cluster: 2048;file: a.txt | 10 | text | folded;6;The file cannot be made",
        "cluster: 2048;damage: lba 0;6;A damage has exactly one",
        "cluster: 2048;unread: lba 0~state: read;7;All other sectors",
    })
    void tellsMistakesOfDisks(String was, String is, int line, String sentence) throws Exception {
        Files.writeString(folder.resolve("d.disk"), DISK.replace(was + "\n", is.replace("~", "\n") + "\n"));
        Lessons lessons = Lessons.of(List.of(new FolderLessons(folder)));
        assertTrue(lessons.problems().stream().anyMatch(p -> p.file().equals("d.disk") && p.line() == line && p.sentence().contains(sentence)),
                sentence + " is not in " + lessons.problems());
    }
}
