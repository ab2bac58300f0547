package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;

import org.eclipse.swt.widgets.Button;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.LessonProgress;
import sectorglass.practice.lesson.Lessons;
import sectorglass.workbench.InspectPerspective;

/** One lesson, played in German. */
class LessonGermanTest {
    private final Locale before = Locale.getDefault();

    @AfterEach
    void back() {
        Locale.setDefault(before);
        LessonsTest.hide();
        RecoverTest.perspective(InspectPerspective.ID);
    }

    @Test
    void aLessonIsPlayedInGerman() throws Exception {
        LessonsTest.hide();
        Locale.setDefault(Locale.GERMANY);
        Lesson lesson = Lessons.ofProviders(null).all().get(0);
        LessonProgress.load(LessonProgress.usualFile()).forget(lesson);
        assertTrue(LessonsTest.play(0, lesson) > 0);
        assertTrue(Ui.get(() -> Ui.all(Learner.face(), Button.class).stream().anyMatch(b -> b.getText().equals("Weiter"))), "the buttons are German");
    }
}
