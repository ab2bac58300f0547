package sectorglass.practice.lesson;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;

import sectorglass.image.ImageException;

/** The lesson disks of the product, each made once for all tests and removed when they end. */
final class MadeDisks {
    static final Lessons LESSONS = Lessons.ofProviders(null);
    private static final Map<String, LessonDisk> MADE = new ConcurrentHashMap<>();
    private static Path folder;

    private MadeDisks() {
    }

    private static synchronized Path folder() throws IOException {
        if (folder == null) {
            folder = Files.createTempDirectory("lessons");
            Runtime.getRuntime().addShutdownHook(new Thread(() -> remove(folder)));
        }
        return folder;
    }

    private static void remove(Path made) {
        try (Stream<Path> files = Files.list(made)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
            Files.delete(made);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The disk of a lesson. */
    static LessonDisk of(Lesson lesson) throws IOException {
        LessonDisk known = MADE.get(lesson.disk());
        if (known == null) {
            known = LESSONS.disk(lesson, folder());
            MADE.put(lesson.disk(), known);
        }
        return known;
    }

    /** A lesson on its disk. */
    static LessonRun run(Lesson lesson, Locale locale) throws IOException, ImageException {
        return LessonRun.open(lesson, of(lesson), locale);
    }
}
