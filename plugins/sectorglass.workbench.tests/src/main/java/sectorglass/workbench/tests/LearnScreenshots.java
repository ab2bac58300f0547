package sectorglass.workbench.tests;

import java.io.IOException;
import java.util.List;

import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.Lessons;
import sectorglass.practice.lesson.Task;
import sectorglass.workbench.InspectPerspective;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.model.Exam;

/** Pictures of the lessons, of covered fields, the projector size and an exam; see {@link Screenshots}. */
class LearnScreenshots {

    @Test
    void scenes() throws IOException {
        List<Lesson> all = Lessons.ofProviders(null).all();
        for (boolean dark : new boolean[] {false, true}) {
            String theme = Screenshots.theme(dark);
            RecoverTest.perspective(InspectPerspective.ID);
            Ui.run(() -> Ui.desk().show(null, null));
            Learner.list();
            Screenshots.size();
            Learner.list();
            Screenshots.shoot("lessons-" + theme);
            int row = row(all);
            Lesson lesson = all.get(row);
            Learner learner = new Learner(lesson);
            int step = step(lesson);
            Learner.open(lesson, step);
            learner.shown(step);
            Screenshots.shoot("lesson-" + theme);
            learner.wrong(lesson.steps().get(step));
            Screenshots.shoot("lesson-wrong-" + theme);
            Ui.run(() -> Size.large(true));
            Screenshots.shoot("lesson-projector-" + theme);
            Ui.run(() -> Size.large(false));
            Learner.list();
            WayTest.open();
            for (int i = 0; i < 3; i++) {
                Ui.command(Learner.LEARNING + "step.next");
                Ui.explained();
            }
            Screenshots.shoot("way-" + theme);
            RecoverTest.perspective(InspectPerspective.ID);
            Ui.run(() -> PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().resetPerspective());
            Ui.open(Demo.Variant.GPT);
            Ui.run(() -> Ui.desk().goTo(512, "typed"));
            Ui.explained();
            Ui.command(Learner.LEARNING + "cover");
            for (int i = 0; i < 3; i++) {
                Ui.command(Learner.LEARNING + "cover.next");
                Ui.explained();
            }
            Screenshots.place(512, "covered-" + theme);
            Ui.run(() -> Size.large(true));
            Screenshots.place(512 + 24, "covered-projector-" + theme);
            Ui.run(() -> {
                Size.large(false);
                Ui.desk().cover().on(false);
                Ui.desk().exam(Exam.HERE);
            });
            Screenshots.place(0x1BE, "exam-" + theme);
            Ui.run(() -> Ui.desk().exam(Exam.NONE));
        }
        Screenshots.theme(false);
    }

    /** A lesson about a partition table, where there is one: its bytes are worth a picture. */
    private static int row(List<Lesson> all) {
        for (int i = 0; i < all.size(); i++) {
            if (all.get(i).disk().startsWith("mbr") && i > 0 && step(all.get(i)) > 0) {
                return i;
            }
        }
        return 0;
    }

    /** A step that is answered in the sectors. */
    private static int step(Lesson lesson) {
        for (int i = 1; i < lesson.steps().size(); i++) {
            if (lesson.steps().get(i).task() instanceof Task.ClickByte) {
                return i;
            }
        }
        return 0;
    }
}
