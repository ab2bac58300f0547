package sectorglass.practice.lesson;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.TreeSet;

/**
 * Which steps a person has done. Kept in one small text file, a line {@code lesson/step} each after the title line, and saved whole:
 * the new text goes to a file beside it, which then takes the old one's place. Safe for several threads.
 */
public final class LessonProgress {
    private static final String TITLE = "# Sectorglass lesson progress, format 1";
    private static final int MOST_BYTES = 1 << 20;

    private final Path file;
    private final Set<String> done = new TreeSet<>();

    private LessonProgress(Path file) {
        this.file = file;
    }

    /** The usual file: in the folder {@code .sectorglass} of the person's home folder. */
    public static Path usualFile() {
        return Path.of(System.getProperty("user.home"), ".sectorglass", "lessons.txt");
    }

    /** What a file holds; one that is missing holds nothing, lines that are none are left out. */
    public static LessonProgress load(Path file) throws IOException {
        LessonProgress progress = new LessonProgress(file);
        if (Files.exists(file) && Files.size(file) <= MOST_BYTES) {
            new String(Files.readAllBytes(file), StandardCharsets.UTF_8).lines().map(String::strip)
                    .filter(line -> line.matches("[a-z0-9-]{1,200}/[a-z0-9-]{1,200}")).forEach(progress.done::add);
        }
        return progress;
    }

    /** Whether a step is done. */
    public synchronized boolean isDone(Lesson lesson, Step step) {
        return done.contains(key(lesson, step));
    }

    /** Number of steps that are done. */
    public synchronized int count(Lesson lesson) {
        return (int) lesson.steps().stream().filter(step -> isDone(lesson, step)).count();
    }

    /** Whether all steps are done. */
    public synchronized boolean isDone(Lesson lesson) {
        return count(lesson) == lesson.steps().size();
    }

    /** Index of the first step that is not done; 0 where all are. */
    public synchronized int next(Lesson lesson) {
        for (int i = 0; i < lesson.steps().size(); i++) {
            if (!isDone(lesson, lesson.steps().get(i))) {
                return i;
            }
        }
        return 0;
    }

    /**
     * Notes that a step is done, and saves.
     *
     * @throws IOException if it cannot be written; the step then still counts as done until the program ends
     */
    public synchronized void done(Lesson lesson, Step step) throws IOException {
        if (done.add(key(lesson, step))) {
            save();
        }
    }

    /**
     * Forgets what is done of a lesson, and saves.
     *
     * @throws IOException if it cannot be written
     */
    public synchronized void forget(Lesson lesson) throws IOException {
        if (done.removeIf(key -> key.startsWith(lesson.id() + "/"))) {
            save();
        }
    }

    private static String key(Lesson lesson, Step step) {
        return lesson.id() + "/" + step.id();
    }

    private void save() throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        Files.createDirectories(folder);
        Path fresh = Files.createTempFile(folder, file.getFileName().toString(), ".new");
        try {
            byte[] text = (TITLE + "\n" + String.join("\n", done) + "\n").getBytes(StandardCharsets.UTF_8);
            try (FileChannel out = FileChannel.open(fresh, StandardOpenOption.WRITE)) {
                ByteBuffer bytes = ByteBuffer.wrap(text);
                while (bytes.hasRemaining()) {
                    out.write(bytes);
                }
                out.force(true);
            }
            Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            Files.deleteIfExists(fresh);
            throw e;
        }
    }
}
