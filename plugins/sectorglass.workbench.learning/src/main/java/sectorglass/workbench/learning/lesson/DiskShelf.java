package sectorglass.workbench.learning.lesson;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

import org.eclipse.core.runtime.Platform;

import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.LessonDisk;
import sectorglass.practice.lesson.Lessons;
import sectorglass.recovery.JobFile;

/** The disks of lessons as files of the workspace. */
final class DiskShelf {

    private DiskShelf() {
    }

    private static Path folder() {
        return Platform.getStateLocation(Platform.getBundle("sectorglass.workbench.learning")).toPath().resolve("disks");
    }

    /** Where the disk of a lesson lies once it was made. */
    static Path image(Lesson lesson) {
        return folder().resolve(lesson.disk() + ".img");
    }

    /**
     * Makes the disk of a lesson; takes a moment. A file that holds the same bytes already stays, so that a window may have it open; what
     * was noted about it beside it is cleared away.
     */
    static synchronized LessonDisk make(Lessons lessons, Lesson lesson) throws IOException {
        Path fresh = folder().resolve("new");
        LessonDisk made = lessons.disk(lesson, fresh);
        Path image = place(made.image(), image(lesson));
        Path map = folder().resolve(lesson.disk() + ".csv");
        if (made.readMap() == null) {
            Files.deleteIfExists(map);
        } else {
            place(made.readMap(), map);
        }
        Files.deleteIfExists(JobFile.beside(image));
        return new LessonDisk(made.name(), image, made.readMap() == null ? null : map);
    }

    private static Path place(Path fresh, Path wanted) throws IOException {
        if (Files.exists(wanted) && Files.mismatch(fresh, wanted) < 0) {
            Files.delete(fresh);
        } else {
            Files.move(fresh, wanted, StandardCopyOption.REPLACE_EXISTING);
        }
        return wanted;
    }
}
