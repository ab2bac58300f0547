package sectorglass.practice.disk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.image.Progress;
import sectorglass.make.SplitMix64;
import sectorglass.verify.RuleBook;

/**
 * Writes practice disks into a folder, each with its sheets and its form in a folder of its own, and the key in the folder {@code teacher}, which is kept
 * apart from what learners are given.
 */
public final class PracticeSet {
    /** The most disks in a set. */
    public static final int MOST = 500;

    private final Path folder;
    private final boolean exam;
    private final Locale locale;
    private final PracticeMaker maker;
    private final List<DiskKey> made = new ArrayList<>();

    /**
     * @param folder made where it is missing
     * @param exam whether the window keeps findings and explanations closed
     * @param locale language of sheets and explanations
     */
    public PracticeSet(Path folder, boolean exam, Locale locale) {
        this.folder = folder;
        this.exam = exam;
        this.locale = locale;
        maker = new PracticeMaker(RuleBook.ofProviders(locale));
    }

    /** Makes one disk in {@code disk}. */
    public DiskKey single(long seed, int level) throws IOException {
        Path own = own("disk");
        return sheets(maker.make(seed, level, 0, own.resolve("practice.img")), own);
    }

    /** Makes one disk with a fault of each of these kinds in {@code disk}. */
    public DiskKey single(long seed, List<String> kinds) throws IOException {
        Path own = own("disk");
        return sheets(maker.make(seed, kinds, own.resolve("practice.img")), own);
    }

    /** Makes a set of disks in {@code seat-01} and so on, all of the same level, no two the same. */
    public void many(int count, long seed, int level, Progress progress) throws IOException {
        for (int seat = 1; seat <= count; seat++) {
            progress.checkCancelled();
            progress.at("practice disks", seat - 1L, count);
            Path own = own("seat-" + (seat < 10 ? "0" : "") + seat);
            sheets(maker.make(SplitMix64.derive(seed, "seat " + seat), level, seat, own.resolve("practice.img")), own);
        }
    }

    private Path own(String name) throws IOException {
        return Files.createDirectories(folder.resolve(name));
    }

    private DiskKey sheets(DiskKey disk, Path own) throws IOException {
        AnswerForm.writeEmpty(own.resolve("answer.json"), disk, locale);
        new TaskSheet(disk, exam, locale).write(own.resolve("task.html"), own.resolve("task.txt"), "answer.json");
        new PracticeFile(disk.code(), disk.level(), exam, "answer.json", "task.html").write(own.resolve(disk.image()));
        made.add(disk);
        return disk;
    }

    /** Writes the key to all disks made so far: {@code teacher/key.json}, and as pages to read. */
    public Path key(long seed) throws IOException {
        Path teacher = own("teacher");
        AnswerKey key = new AnswerKey(List.copyOf(made));
        key.write(teacher.resolve("key.json"));
        new KeySheet(key, seed, locale).write(teacher.resolve("key.html"), teacher.resolve("key.txt"));
        return teacher.resolve("key.json");
    }
}
