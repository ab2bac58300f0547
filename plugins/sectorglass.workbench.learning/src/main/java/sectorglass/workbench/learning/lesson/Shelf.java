package sectorglass.workbench.learning.lesson;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.osgi.service.prefs.BackingStoreException;

import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.LessonProgress;
import sectorglass.practice.lesson.Lessons;
import sectorglass.practice.lesson.Step;

/**
 * All lessons and what the reader has done of them.
 *
 * @param lessons those of the product and of the teacher's folder
 * @param progress the reader's
 */
record Shelf(Lessons lessons, LessonProgress progress) {
    /** Name of the setting that holds the teacher's folder; empty for none. */
    static final String FOLDER = "folder";
    private static final String LESSON = "lesson";
    private static final String STEP = "step";

    /** The settings of lessons. */
    static IEclipsePreferences node() {
        return InstanceScope.INSTANCE.getNode("sectorglass.workbench.learning");
    }

    /** Reads everything; takes a moment. */
    static Shelf read() throws IOException {
        String folder = node().get(FOLDER, "");
        return new Shelf(Lessons.ofProviders(folder.isBlank() ? null : Path.of(folder)), LessonProgress.load(LessonProgress.usualFile()));
    }

    /** Notes that a step is done. */
    void done(Lesson lesson, Step step) {
        try {
            progress.done(lesson, step);
        } catch (IOException e) {
            ILog.get().warn("The progress of lessons could not be kept.", e);
        }
    }

    /** Forgets what was done of a lesson. */
    void forget(Lesson lesson) {
        try {
            progress.forget(lesson);
        } catch (IOException e) {
            ILog.get().warn("The progress of lessons could not be kept.", e);
        }
    }

    /** Keeps which step is open; null: the list is. */
    static void keep(Lesson lesson, int step) {
        node().put(LESSON, lesson == null ? "" : lesson.id());
        node().putInt(STEP, step);
        try {
            node().flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The open lesson could not be kept.", e);
        }
    }

    /** The lesson that was open when the window was closed, or null. */
    Lesson kept() {
        return lessons.find(node().get(LESSON, "")).orElse(null);
    }

    /** The step of it. */
    static int keptStep() {
        return node().getInt(STEP, 0);
    }

    /** The lessons in their order. */
    List<Lesson> all() {
        return lessons.all();
    }
}
