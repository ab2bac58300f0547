package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.swt.widgets.TreeItem;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.WorkbenchException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.make.Demo;
import sectorglass.workbench.InspectPerspective;

/** The perspective Recover with the disk of which only a part was read. Its parts are found by their ids and by what they show. */
class RecoverTest {
    private static final String RECOVER = "sectorglass.workbench.recovery.";
    private static final int STATE = 2;

    @BeforeEach
    void openRecover() {
        perspective(RECOVER + "recover");
        Ui.open(Demo.Variant.PARTLY_READ);
    }

    @AfterEach
    void openInspect() {
        perspective(InspectPerspective.ID);
    }

    private static void perspective(String id) {
        Ui.run(() -> {
            try {
                PlatformUI.getWorkbench().showPerspective(id, PlatformUI.getWorkbench().getWorkbenchWindows()[0]);
            } catch (WorkbenchException e) {
                throw new IllegalStateException(e);
            }
        });
        Ui.settle();
    }

    @Test
    void filesSayWhatWasRecovered() {
        Tree files = tree();
        Combo states = Ui.get(() -> Ui.all(files.getParent(), Combo.class).get(1));
        Ui.run(() -> {
            states.select(Arrays.asList(states.getItems()).indexOf("damaged"));
            states.notifyListeners(SWT.Selection, new Event());
        });
        Ui.until("damaged files are listed", () -> files.getItemCount() > 0 && files.getItem(0).getText(STATE).equals("damaged"));
        Ui.run(() -> {
            for (TreeItem item : files.getItems()) {
                assertTrue(item.getText(STATE).equals("damaged") || item.getText(STATE).isEmpty() || item.getText(STATE).equals("\u2026"),
                        item.getText(0) + " " + item.getText(STATE));
            }
        });
        long before = Ui.get(() -> Ui.desk().caret());
        Ui.run(() -> {
            files.setSelection(files.getItem(0));
            files.notifyListeners(SWT.Selection, new Event());
            press(files.getParent(), "Show record");
        });
        Ui.explained();
        assertNotEquals(before, Ui.get(() -> Ui.desk().caret()));
    }

    @Test
    void aPlanReadsOnlyWhatWasNotRead() {
        Control part = Ui.get(() -> {
            Ui.part(RECOVER + "plan");
            return Ui.all(Table.class).stream().filter(t -> t.getColumnCount() == 6 && t.getColumn(0).getText().equals("Stage")).findFirst()
                    .orElseThrow();
        });
        Table stages = (Table) part;
        Ui.run(() -> press(Ui.window(), "Make plan"));
        Ui.until("the plan has stages", () -> stages.getItemCount() > 0);
        Table ranges = Ui.get(() -> Ui.all(Table.class).stream().filter(t -> t.getColumnCount() == 3 && t.getItemCount() > 0).findFirst().orElseThrow());
        Ui.run(() -> {
            SectorImage image = Ui.desk().open().image();
            for (int i = 0; i < stages.getItemCount(); i++) {
                stages.setSelection(i);
                stages.notifyListeners(SWT.Selection, new Event());
                assertTrue(ranges.getItemCount() > 0, stages.getItem(i).getText(1));
                long lba = Long.parseLong(ranges.getItem(0).getText(0).replaceAll("\\D", ""));
                assertFalse(image.state(lba) == ReadState.READ, "LBA " + lba + " was read already");
            }
        });
        assertEquals("1", Ui.get(() -> stages.getItem(0).getText(0)));
    }

    private static Tree tree() {
        Tree files = Ui.get(() -> {
            Ui.part(RECOVER + "files");
            return Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 5).findFirst().orElseThrow();
        });
        Ui.until("files are listed", () -> files.getItemCount() > 0);
        return files;
    }

    private static void press(Control root, String text) {
        Button button = Ui.all(root, Button.class).stream().filter(b -> b.getText().equals(text)).findFirst().orElseThrow();
        assertTrue(button.isEnabled(), text);
        button.notifyListeners(SWT.Selection, new Event());
    }
}
