package sectorglass.workbench.tests;

import java.io.IOException;
import java.nio.file.Path;

import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.junit.jupiter.api.Test;
import org.osgi.service.prefs.BackingStoreException;

import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;
import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.Lessons;
import sectorglass.workbench.InspectPerspective;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Theme;
import sectorglass.workbench.model.Exam;
import sectorglass.workbench.parts.FindingsPart;

/** Opens a disk, goes somewhere, changes what can be changed, and closes the window. */
class Leaving {
    static final long CARET = 512 + 72;
    static final Lesson LESSON = Lessons.ofProviders(null).all().get(0);

    @Test
    void leave() throws IOException, BackingStoreException {
        Learner.open(LESSON, 0);
        Ui.command(Learner.LEARNING + "step.check"); // the first step is only read: it is done, the second one is shown
        new Learner(LESSON).shown(1);
        RecoverTest.perspective(InspectPerspective.ID);
        Demo.Written written = Demo.write(Path.of(System.getProperty("uitest.room")), Demo.Variant.PARTLY_READ);
        Ui.open(written.image(), OpenOptions.DEFAULT.withReadMap(written.readMap()));
        Ui.run(() -> Ui.part("sectorglass.workbench.converter"));
        Ui.command("sectorglass.workbench.columns.32");
        Ui.command("sectorglass.workbench.text.utf_8");
        Ui.command("sectorglass.workbench.density");
        Ui.run(() -> {
            Composite board = (Composite) ((FindingsPart) Ui.part(FindingsPart.ID)).board().control();
            Combo group = Ui.all(board, Combo.class).get(1);
            group.select(2);
            group.notifyListeners(SWT.Selection, new Event());
            Ui.all(board, Table.class).get(0).setColumnOrder(new int[] {0, 2, 1, 3, 4, 5, 6});
            Look.set(Theme.DARK);
            Ui.desk().goTo(CARET, "typed");
        });
        Ui.explained();
        Ui.run(() -> Ui.desk().exam(Exam.SHEET));
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode("sectorglass.workbench.tests");
        node.put("density", Ui.canvas().shown().density().name());
        node.flush();
    }
}
