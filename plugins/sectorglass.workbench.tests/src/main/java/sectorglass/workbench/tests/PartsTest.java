package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableItem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.ImagePart;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;
import sectorglass.workbench.look.Texts;

/** The parts of a chunk set: what proves their order, another order set by structures and by hand, kept in the job file. */
class PartsTest {
    @TempDir
    Path folder;

    /** The sound demo disk in four parts whose size is no multiple of a sector, the second and the third exchanged. */
    private Path exchanged() throws IOException {
        byte[] whole = Files.readAllBytes(Ui.demo(Demo.Variant.GPT_SOUND).image());
        int size = whole.length / 4 + 1001;
        int[] order = {0, 2, 1, 3};
        for (int i = 0; i < order.length; i++) {
            Files.write(folder.resolve("set.00" + (i + 1)), Arrays.copyOfRange(whole, order[i] * size, Math.min(whole.length, (order[i] + 1) * size)));
        }
        return folder.resolve("set.001");
    }

    private static List<String> files() {
        List<String> names = new ArrayList<>();
        for (ImagePart part : ((OpenImage) Ui.desk().open().image()).parts()) {
            names.add(part.missing() ? "missing " + part.bytes() : part.file().getFileName().toString());
        }
        return names;
    }

    /** Opens the dialog and does something in it once structures were asked. */
    private static void inDialog(Consumer<Shell> what) {
        boolean[] done = {false};
        Ui.run(() -> Display.getCurrent().timerExec(50, new Runnable() {
            @Override
            public void run() {
                Shell shell = Arrays.stream(Display.getCurrent().getShells()).filter(s -> s.getText().equals(Texts.of("parts.title"))).findFirst().orElse(null);
                Table table = shell == null ? null : Ui.all(shell, Table.class).get(0);
                if (table == null || Arrays.stream(table.getItems()).allMatch(i -> i.getText(5).equals(Texts.of("parts.why.unasked")))) {
                    Display.getCurrent().timerExec(50, this);
                    return;
                }
                try {
                    what.accept(shell);
                    done[0] = true;
                } finally {
                    if (!shell.isDisposed()) {
                        shell.close();
                    }
                }
            }
        }));
        Ui.command("sectorglass.workbench.parts");
        assertTrue(done[0]);
    }

    private static List<String> column(Shell shell, int column) {
        return Arrays.stream(Ui.all(shell, Table.class).get(0).getItems()).map((TableItem i) -> i.getText(column)).toList();
    }

    private static void press(Shell shell, String key) {
        Button button = Ui.all(shell, Button.class).stream().filter(b -> b.getText().equals(Texts.of(key))).findFirst().orElseThrow();
        assertTrue(button.isEnabled(), key);
        button.notifyListeners(SWT.Selection, new Event());
    }

    private static void key(Shell shell, int row, int code, int mask) {
        Table table = Ui.all(shell, Table.class).get(0);
        table.setSelection(row);
        Event event = new Event();
        event.keyCode = code;
        event.stateMask = mask;
        table.notifyListeners(SWT.KeyDown, event);
    }

    private void opened(List<String> expected) {
        Ui.until("opened as " + expected, () -> Ui.desk().open() != null && Ui.desk().open().findings() != null && files().equals(expected));
    }

    @Test
    void theOrderIsShownCorrectedAndKept() throws IOException {
        Path first = exchanged();
        Ui.open(first, OpenOptions.DEFAULT);
        Ui.until("it is told", () -> Ui.desk().open().remarks().stream().anyMatch(r -> r.contains("another order of the parts: 1, 3, 2, 4")));
        inDialog(shell -> {
            assertTrue(column(shell, 4).stream().anyMatch(c -> c.contains("contradicted")), column(shell, 4) + " " + column(shell, 5));
            assertEquals("proven", column(shell, 4).get(0), column(shell, 5).get(0));
            press(shell, "parts.proposed");
            assertEquals(List.of("set.001", "set.003", "set.002", "set.004"), column(shell, 1));
            assertFalse(column(shell, 4).toString().contains("contradicted"), column(shell, 4) + " " + column(shell, 5));
            press(shell, "parts.apply");
        });
        opened(List.of("set.001", "set.003", "set.002", "set.004"));
        assertFalse(Ui.get(() -> Ui.desk().open().remarks().toString()).contains("another order"));
        assertTrue(Ui.get(() -> Ui.desk().open().disk().partitions().stream().allMatch(p -> p.volume() != null)), "all volumes are there");
        List<Job.Part> kept = JobFile.open(JobFile.beside(first)).job().parts();
        assertEquals(List.of("set.001", "set.003", "set.002", "set.004"), kept.stream().map(Job.Part::file).toList());
        Ui.open(first, OpenOptions.DEFAULT);
        opened(List.of("set.001", "set.003", "set.002", "set.004"));
        inDialog(shell -> press(shell, "parts.numbers"));
        opened(List.of("set.001", "set.002", "set.003", "set.004"));
        assertEquals(List.of(), JobFile.open(JobFile.beside(first)).job().parts());
    }

    @Test
    void partsAreMovedAndTakenOutByKeys() throws IOException {
        Path first = exchanged();
        Ui.open(first, OpenOptions.DEFAULT);
        inDialog(shell -> {
            key(shell, 1, SWT.ARROW_DOWN, SWT.ALT);
            assertEquals(List.of("set.001", "set.003", "set.002", "set.004"), column(shell, 1));
            key(shell, 3, SWT.DEL, 0);
            assertEquals(List.of("set.001", "set.003", "set.002"), column(shell, 1));
            assertEquals(List.of("1", "2", "3"), column(shell, 0));
            press(shell, "parts.apply");
        });
        opened(List.of("set.001", "set.003", "set.002"));
    }
}
