package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

import sectorglass.disk.way.Reading;
import sectorglass.disk.way.WayStep;
import sectorglass.make.Demo;
import sectorglass.recovery.way.Way;
import sectorglass.recovery.way.WayFinder;
import sectorglass.workbench.InspectPerspective;
import sectorglass.workbench.look.Numbers;

/** The way to a file, from the part Files, walked in the window. */
class WayTest {
    /** Number of the demo disk's NTFS volume; Files shows it first, since it is the largest one. */
    private static final int NTFS = 3;

    @AfterEach
    void back() {
        RecoverTest.perspective(InspectPerspective.ID);
    }

    /** Opens the way to a file by the button in Files; the path of the file. */
    static String open() {
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
        Ui.run(() -> Ui.part(RecoverTest.RECOVER + "files"));
        Ui.open(Demo.Variant.GPT_SOUND);
        Tree files = Ui.get(() -> Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 5).findFirst().orElseThrow());
        Ui.run(() -> {
            Combo states = Ui.all(files.getParent(), Combo.class).get(1);
            states.select(0); // another test may have left only damaged files listed
            states.notifyListeners(SWT.Selection, new Event());
        });
        Ui.until("files are listed", () -> files.getItemCount() > 0);
        Text filter = Ui.get(() -> Ui.all(files.getParent(), Text.class).get(0));
        Ui.run(() -> filter.setText("*.jpg"));
        Ui.until("pictures are listed", () -> files.getItemCount() > 0 && files.getItem(0).getText(0).endsWith(".JPG"));
        String path = Ui.get(() -> files.getItem(0).getText(0));
        Ui.run(() -> {
            files.setSelection(files.getItem(0));
            files.notifyListeners(SWT.Selection, new Event());
            RecoverTest.press(files.getParent(), Learner.words("Way to it", "Weg dorthin"));
        });
        Ui.until("the way is shown", () -> Learner.words("Way", "Weg").equals(active()));
        Ui.run(() -> filter.setText(""));
        return path;
    }

    private static String active() {
        return PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().getActivePart().getTitle();
    }

    private static Table fields() {
        return Ui.get(() -> Ui.all(Table.class).stream().filter(t -> t.getColumnCount() == 3 && t.getColumn(1).getText().equals("Bytes")).findFirst()
                .orElseThrow());
    }

    private static void press(Composite page, String label) {
        Ui.run(() -> RecoverTest.press(page, label));
        Ui.explained();
    }

    @Test
    void eachStepLightsItsBytesAndTheLastOneStandsAtTheFile() {
        String path = open();
        Way way = new WayFinder(Ui.desk().open().disk(), Locale.getDefault()).way(NTFS, path).orElseThrow();
        assertTrue(way.complete(), path);
        Table fields = fields();
        Composite page = Ui.get(fields::getParent);
        for (int i = 0; i < way.steps().size(); i++) {
            WayStep step = way.steps().get(i);
            String shown = Ui.get(() -> Ui.all(page, StyledText.class).get(0).getText());
            assertTrue(shown.startsWith(step.title()), shown);
            assertTrue(shown.contains(step.text()), shown);
            assertEquals(step.readings().size(), Ui.get(fields::getItemCount));
            long first = step.readings().isEmpty() ? step.where().start() : step.readings().get(0).where().start();
            assertEquals(first, Ui.desk().caret(), "step " + (i + 1) + " lights its bytes");
            assertTrue(Ui.get(() -> Ui.canvas().cell(first)) != null, "they are in view");
            if (step.readings().size() > 1) {
                Reading second = step.readings().get(1);
                Ui.run(() -> {
                    fields.select(1);
                    fields.notifyListeners(SWT.Selection, new Event());
                });
                Ui.explained();
                assertEquals(second.where(), Ui.desk().selection(), second.name());
            }
            if (step.next() >= 0) {
                String sums = Ui.get(() -> Ui.all(page, StyledText.class).get(1).getText());
                assertTrue(sums.contains(Numbers.grouped(step.next())), sums);
            }
            if (i < way.steps().size() - 1) {
                press(page, "Next");
            }
        }
        assertEquals(way.contentByte(), Ui.desk().caret());
        assertFalse(Ui.get(() -> Ui.all(page, Button.class).stream().filter(b -> b.getText().equals("Next")).findFirst().orElseThrow().isEnabled()));
        long end = Ui.desk().caret();
        Ui.command(Learner.LEARNING + "step.previous");
        Ui.explained();
        assertNotEquals(end, Ui.desk().caret(), "the key of the steps leads back");
    }
}
