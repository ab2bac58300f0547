package sectorglass.practice.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is done stays done. */
class ProgressTest {
    @TempDir
    private Path folder;

    private static Step step(String id) {
        return new Step(id, Words.english("x"), "lba 0", null, new Task.ReadOn(), null, null, null, List.of(), List.of(), 1);
    }

    private static final Lesson LESSON = new Lesson("a-lesson", 1, Words.english("x"), "d", List.of(), List.of(step("one"), step("two")), "f");
    private static final Lesson OTHER = new Lesson("a", 1, Words.english("x"), "d", List.of(), List.of(step("one")), "f");

    @Test
    void survivesTheProgram() throws IOException {
        Path file = folder.resolve("new folder").resolve("lessons.txt");
        LessonProgress progress = LessonProgress.load(file);
        assertEquals(0, progress.next(LESSON));
        progress.done(LESSON, LESSON.steps().get(0));
        LessonProgress again = LessonProgress.load(file);
        assertTrue(again.isDone(LESSON, LESSON.steps().get(0)));
        assertFalse(again.isDone(LESSON));
        assertEquals(1, again.next(LESSON));
        again.done(LESSON, LESSON.steps().get(1));
        again.done(OTHER, OTHER.steps().get(0));
        assertTrue(LessonProgress.load(file).isDone(LESSON));
        again.forget(LESSON);
        assertEquals(0, LessonProgress.load(file).count(LESSON));
        assertTrue(LessonProgress.load(file).isDone(OTHER), "a lesson whose name begins another one's keeps its steps");
        try (var files = Files.list(file.getParent())) {
            assertEquals(List.of(file), files.toList(), "no file is left over");
        }
    }

    @Test
    void leavesOutLinesThatAreNone() throws IOException {
        Path file = folder.resolve("lessons.txt");
        Files.write(file, new byte[] {(byte) 0xFF, '\n', 'a', '/', 'o', 'n', 'e', '\r', '\n', '.', '.', '/', 'x', '\n'});
        LessonProgress progress = LessonProgress.load(file);
        assertTrue(progress.isDone(OTHER));
        assertEquals(0, progress.count(LESSON));
    }

    @Test
    void keepsTheOldFileWhereItCannotWrite() throws IOException {
        Path file = folder.resolve("lessons.txt");
        LessonProgress.load(file).done(OTHER, OTHER.steps().get(0));
        LessonProgress progress = LessonProgress.load(file);
        Files.delete(file);
        Files.createDirectory(file);
        Files.writeString(file.resolve("in the way"), "x");
        assertThrows(IOException.class, () -> progress.done(LESSON, LESSON.steps().get(0)));
        assertTrue(progress.isDone(LESSON, LESSON.steps().get(0)), "counts until the program ends");
        try (var files = Files.list(folder)) {
            assertEquals(List.of(file), files.toList(), "no file is left over");
        }
    }
}
