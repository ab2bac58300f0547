package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Table;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.Test;

import sectorglass.image.ReadState;
import sectorglass.practice.lesson.LessonProgress;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Theme;
import sectorglass.workbench.model.Exam;
import sectorglass.workbench.opening.Recent;
import sectorglass.workbench.parts.FindingsPart;

/** Finds what {@link Leaving} left. */
class Restored {

    @Test
    void found() throws java.io.IOException {
        Ui.until("the image is open again", () -> Ui.desk().open() != null && Ui.desk().open().image().name().equals("demo-partly-read.img"));
        assertEquals(Exam.SHEET, Ui.get(() -> Ui.desk().exam()), "the exam goes on");
        assertEquals(0, Ui.desk().open().listed().size());
        Ui.run(() -> Ui.desk().exam(Exam.NONE));
        Ui.until("the image is judged", () -> Ui.desk().open().findings() != null);
        Ui.explained();
        assertEquals("demo-partly-read.img", Ui.desk().open().image().name());
        assertEquals(Leaving.CARET, Ui.desk().caret());
        assertEquals(false, Ui.desk().open().image().inState(ReadState.FAILED, Ui.desk().open().image().all()).isEmpty(), "the read map came back");
        assertEquals(32, Ui.canvas().columns());
        assertEquals("UTF_8", Ui.canvas().text().name());
        assertEquals(InstanceScope.INSTANCE.getNode("sectorglass.workbench.tests").get("density", ""), Ui.canvas().shown().density().name());
        assertEquals(Theme.DARK, Ui.get(Ink::theme));
        assertEquals("demo-partly-read.img", Recent.images().get(0).getFileName().toString());
        assertNotNull(Ui.get(() -> PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().findView("sectorglass.workbench.converter")),
                "the part that was opened is there");
        Composite board = Ui.get(() -> (Composite) ((FindingsPart) Ui.part(FindingsPart.ID)).board().control());
        assertEquals(2, Ui.get(() -> Ui.all(board, Combo.class).get(1).getSelectionIndex()));
        assertArrayEquals(new int[] {0, 2, 1, 3, 4, 5, 6}, Ui.get(() -> Ui.all(board, Table.class).get(0).getColumnOrder()));
        RecoverTest.perspective("sectorglass.workbench.learning.learn");
        Ui.until("the lesson waits for its disk", () -> Learner.texts().get(0).contains("Another disk"));
        assertEquals("demo-partly-read.img", Ui.desk().open().image().name(), "the open disk is not taken away");
        Learner.press("Open the disk");
        new Learner(Leaving.LESSON).shown(1);
        assertTrue(LessonProgress.load(LessonProgress.usualFile()).isDone(Leaving.LESSON, Leaving.LESSON.steps().get(0)));
    }
}
