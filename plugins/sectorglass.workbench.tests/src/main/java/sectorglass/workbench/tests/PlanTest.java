package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.image.OpenOptions;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.make.Demo;
import sectorglass.workbench.InspectPerspective;

/** The part Read plan with the disk of which only a part was read. */
class PlanTest {

    @BeforeEach
    void openRecover() {
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
        Ui.open(Demo.Variant.PARTLY_READ);
    }

    @AfterEach
    void openInspect() {
        RecoverTest.perspective(InspectPerspective.ID);
    }

    @Test
    void aPlanReadsOnlyWhatWasNotRead() {
        Table stages = planned();
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

    /** A pass that comes in makes the plan shrink and says what it added; zones that are drawn put the weak head last. Both are there again later. */
    @Test
    void aPassShrinksThePlanAndDrawnHeadsShapeIt() throws Exception {
        Path folder = Files.createTempDirectory("sectorglass-passes");
        Demo.Written demo = Ui.demo(Demo.Variant.PARTLY_READ);
        Path image = Files.copy(demo.image(), folder.resolve("first.img"));
        Path map = Files.copy(demo.readMap(), folder.resolve("first.csv"));
        Path second = Files.writeString(folder.resolve("second.csv"), "first_lba,sectors,state\n34851,2,read\n36704,6,failed\n");
        Ui.open(image, OpenOptions.DEFAULT.withReadMap(map));
        Table stages = planned();
        long before = sectors(stages);
        IViewPart part = Ui.get(() -> Ui.part(RecoverTest.RECOVER + "plan"));
        Method add = part.getClass().getMethod("addPass", Path.class);
        Ui.run(() -> {
            try {
                add.invoke(part, second);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException(e);
            }
        });
        Ui.until("the pass counts", () -> Ui.desk().open().image().state(34_851) == ReadState.READ && Ui.desk().open().findings() != null);
        Ui.until("it says what it added", () -> Ui.all(Text.class).stream().anyMatch(t -> t.getText().contains("Pass second.csv: added 2 sectors (2 that had failed before)")));
        planned();
        assertEquals(before - 2, sectors(stages));

        Shell dialog = drawnZone();
        Ui.run(() -> {
            List<Text> fields = Ui.all(dialog, Text.class).stream().filter(t -> (t.getStyle() & SWT.READ_ONLY) == 0).toList();
            fields.get(2).setText("1");
            RecoverTest.press(dialog, "Keep");
        });
        Ui.until("the weak head comes last", () -> Arrays.stream(stages.getItems()).anyMatch(stage -> stage.getText(1).contains("weak heads")));
        List<String> lines = Files.readAllLines(folder.resolve("first.img.zones.csv"));
        assertTrue(lines.size() == 2 && lines.get(1).endsWith(",1"), lines.toString());
        Ui.open(image, OpenOptions.DEFAULT);
        assertEquals(ReadState.READ, Ui.get(() -> Ui.desk().open().image().state(34_851)));
        assertEquals(ReadState.FAILED, Ui.get(() -> Ui.desk().open().image().state(36_704)));
    }

    /** Opens the dialog of heads and drags along the lane of head 1. */
    static Shell drawnZone() {
        PlatformUI.getWorkbench().getDisplay().asyncExec(() -> {
            Ui.part(RecoverTest.RECOVER + "plan");
            RecoverTest.press(Ui.window(), "Heads and speed\u2026");
        });
        Ui.until("the dialog is open", () -> RecoverTest.dialog("Heads and speed") != null);
        Shell dialog = Ui.get(() -> RecoverTest.dialog("Heads and speed"));
        Ui.run(() -> {
            Canvas lanes = Ui.all(dialog, Canvas.class).stream().filter(c -> c.getClass().getSimpleName().equals("ZonesCanvas")).findFirst().orElseThrow();
            Ui.mouse(lanes, SWT.MouseDown, 100, 30);
            Ui.mouse(lanes, SWT.MouseMove, 300, 30);
            Ui.mouse(lanes, SWT.MouseUp, lanes.getSize().x - 4, 30);
        });
        return dialog;
    }

    private static Table planned() {
        Table stages = Ui.get(() -> {
            Ui.part(RecoverTest.RECOVER + "plan");
            return Ui.all(Table.class).stream().filter(t -> t.getColumnCount() == 6 && t.getColumn(0).getText().equals("Stage")).findFirst().orElseThrow();
        });
        Ui.run(() -> RecoverTest.press(Ui.window(), "Make plan"));
        Ui.until("the plan has stages", () -> stages.getItemCount() > 0);
        return stages;
    }

    private static long sectors(Table stages) {
        return Ui.get(() -> Arrays.stream(stages.getItems()).mapToLong(item -> Long.parseLong(item.getText(2).replaceAll("\\D", ""))).sum());
    }
}
