package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Table;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.LessonProgress;
import sectorglass.practice.lesson.Lessons;
import sectorglass.practice.lesson.Step;
import sectorglass.workbench.InspectPerspective;

/** The lessons in the window: a robot plays every step, wrongly first, then rightly. */
class LessonsTest {

    @AfterAll
    static void back() {
        Learner.list();
        RecoverTest.perspective(InspectPerspective.ID);
    }

    @Test
    void everyStepRefusesAWrongAnswerAndTakesTheRightOne() throws Exception {
        List<Lesson> all = Lessons.ofProviders(null).all();
        assertFalse(all.isEmpty());
        LessonProgress progress = LessonProgress.load(LessonProgress.usualFile());
        for (Lesson lesson : all) {
            progress.forget(lesson);
        }
        hide(); // the part reads the progress anew
        int asked = 0;
        long began = System.currentTimeMillis();
        for (int row = 0; row < all.size(); row++) {
            Lesson lesson = all.get(row);
            asked += play(row, lesson);
        }
        assertTrue(asked > 0);
        System.out.println("lessons played in the window: " + all.size() + ", steps that ask: " + asked + ", "
                + (System.currentTimeMillis() - began) / 1000 + " s");
        Table list = Learner.list();
        for (int row = 0; row < all.size(); row++) {
            int at = row;
            assertTrue(Ui.get(() -> list.getItem(at).getText(1)).startsWith("\u2713"), all.get(row).id());
        }
        // what was done is in the file, not in the part alone
        LessonProgress kept = LessonProgress.load(LessonProgress.usualFile());
        all.forEach(lesson -> assertTrue(kept.isDone(lesson), lesson.id()));
        hide();
        Table again = Learner.list();
        assertTrue(Ui.get(() -> again.getItem(0).getText(1)).startsWith("\u2713"));
    }

    /** Plays a lesson from its first step to its end; the number of steps that asked for something. */
    static int play(int row, Lesson lesson) {
        int asked = 0;
        Learner learner = new Learner(lesson);
        learner.open(row, 0);
        for (int i = 0; i < lesson.steps().size(); i++) {
            learner.shown(i);
            Step step = lesson.steps().get(i);
            if (step.asks()) {
                asked++;
                String why = learner.wrong(step);
                assertTrue(why.length() > 15, lesson.id() + "/" + step.id() + " says no more than: " + why);
                learner.right(step);
                Learner.press(Learner.words("Next", "Weiter"));
            } else {
                Ui.command(Learner.LEARNING + "step.check"); // one key goes on where nothing is asked
            }
        }
        Ui.until(lesson.id() + " is done", () -> Learner.texts().get(1).contains(Learner.words("All its steps are done", "Alle Schritte sind getan")));
        return asked;
    }

    @Test
    void aStepPointsAtItsPlace() {
        Lesson lesson = Lessons.ofProviders(null).all().get(0);
        Learner learner = new Learner(lesson);
        Ui.run(() -> Ui.desk().show(null, null));
        learner.open(0, new Next(lesson).step());
        int at = new Next(lesson).step();
        var place = learner.run().place(lesson.steps().get(at));
        Ui.until("its sectors stand on the strip", () -> Ui.desk().marked().sectors().count() > 0);
        assertEquals(place.range().start(), Ui.desk().caret());
        assertTrue(Ui.get(() -> Ui.canvas().cell(place.range().start())) != null, "it is in view");
    }

    /** The step that a lesson is opened at: the first one not done. */
    private record Next(Lesson lesson) {
        int step() {
            try {
                return LessonProgress.load(LessonProgress.usualFile()).next(lesson);
            } catch (java.io.IOException e) {
                throw new java.io.UncheckedIOException(e);
            }
        }
    }

    @Test
    void anotherDiskLeavesTheLessonAndAButtonComesBack() {
        Lesson lesson = Lessons.ofProviders(null).all().get(0);
        Learner learner = new Learner(lesson);
        learner.open(0, new Next(lesson).step());
        Ui.open(Demo.Variant.GPT);
        Ui.until("it is said that another disk is open", () -> Learner.texts().get(0).contains("Another disk"));
        Learner.press("Open the disk");
        learner.shown(new Next(lesson).step());
    }

    @Test
    void twoWrongAnswersOfferTheRightOne() {
        Lesson lesson = Lessons.ofProviders(null).all().get(0);
        Learner learner = new Learner(lesson);
        learner.open(0, new Next(lesson).step());
        int at = new Next(lesson).step();
        while (!lesson.steps().get(at).asks()) {
            Ui.command(Learner.LEARNING + "step.next");
            learner.shown(++at);
        }
        Step step = lesson.steps().get(at);
        learner.wrong(step);
        assertFalse(solve());
        Learner.press("Check");
        Ui.until("the answer may be seen", LessonsTest::solve);
        Learner.press("Show the answer");
        Ui.until("the answer is shown", () -> Learner.texts().get(1).startsWith("The answer:") && Learner.texts().get(1).length() > 13);
        Ui.command(Learner.LEARNING + "step.previous");
        if (at > 0) {
            learner.shown(at - 1);
        }
    }

    private static boolean solve() {
        return Ui.get(() -> Ui.all(Learner.face(), Button.class).stream().anyMatch(b -> b.isVisible() && b.getText().equals("Show the answer")));
    }

    /** Closes the part Lessons: the next one reads lessons and progress anew. */
    static void hide() {
        RecoverTest.perspective(Learner.LEARNING + "learn"); // a part is closed in the perspective that shows it
        Ui.run(() -> {
            var page = PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage();
            var part = page.findView("sectorglass.workbench.learning.lessons");
            if (part != null) {
                page.hideView(part);
            }
        });
        Ui.settle();
    }
}
