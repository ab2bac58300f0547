package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.workbench.InspectPerspective;

/** What leaves the window for the customer: files with their options, answers to the wanted list, reports with their switches. */
class HandOutTest {
    private Tree files;

    @BeforeEach
    void openFiles() {
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
        Ui.open(Demo.Variant.PARTLY_READ);
        files = Ui.get(() -> {
            Ui.part(RecoverTest.RECOVER + "files");
            return Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 5).findFirst().orElseThrow();
        });
        filter("");
        Ui.until("files are listed", () -> files.getItemCount() > 0);
    }

    @AfterEach
    void openInspect() {
        filter("");
        RecoverTest.perspective(InspectPerspective.ID);
    }

    private void filter(String words) {
        Ui.run(() -> {
            Text field = Ui.all(files.getParent(), Text.class).get(0);
            if (!field.getText().equals(words)) {
                field.setText(words);
            }
        });
    }

    private static Shell shell(String title) {
        return Arrays.stream(PlatformUI.getWorkbench().getDisplay().getShells()).filter(s -> s.getText().equals(title)).findFirst().orElse(null);
    }

    /** Opens the dialog for extraction; something is chosen. */
    static Shell extractDialog(Tree files) {
        Display display = PlatformUI.getWorkbench().getDisplay();
        display.asyncExec(() -> RecoverTest.press(files.getParent(), "Extract\u2026"));
        Ui.until("the dialog is open", () -> shell("Extract files") != null);
        return Ui.get(() -> shell("Extract files"));
    }

    private static List<Text> fields(Shell dialog) {
        return Ui.all(dialog, Text.class).stream().filter(t -> (t.getStyle() & SWT.READ_ONLY) == 0).toList();
    }

    private static void tick(Shell dialog, String begins) {
        Button box = Ui.all(dialog, Button.class).stream().filter(b -> b.getText().startsWith(begins)).findFirst().orElseThrow();
        box.setSelection(true);
        box.notifyListeners(SWT.Selection, new Event());
    }

    /** Holes hold the byte that was asked for, the tests stand in the manifest, and a second run goes on. */
    @Test
    void filesComeOutAsTheDialogSays() throws Exception {
        Path folder = Files.createTempDirectory("sectorglass-extract").resolve("out");
        filter("market amb");
        Ui.until("the sound is listed", () -> files.getItemCount() == 1 && files.getItem(0).getText(0).toLowerCase().endsWith(".wav"));
        Ui.run(() -> {
            files.setSelection(files.getItem(0));
            files.notifyListeners(SWT.Selection, new Event());
        });
        Shell dialog = extractDialog(files);
        Ui.run(() -> {
            Button extract = Ui.all(dialog, Button.class).stream().filter(b -> b.getText().equals("Extract")).findFirst().orElseThrow();
            fields(dialog).get(0).setText(folder.toString());
            fields(dialog).get(1).setText("300");
            assertFalse(extract.isEnabled(), "no byte");
            fields(dialog).get(1).setText("0xA5");
            tick(dialog, "Test whether");
            RecoverTest.press(dialog, "Extract");
        });
        Ui.until("it is done", () -> labels().stream().anyMatch(l -> l.startsWith("1 files, ")));
        List<String> manifest = Files.readAllLines(folder.resolve("manifest.csv"));
        assertEquals(2, manifest.size());
        java.util.regex.Matcher hole = java.util.regex.Pattern.compile(",(\\d+)\\+(\\d+)[ ,]").matcher(manifest.get(1));
        assertTrue(hole.find(), manifest.get(1));
        assertTrue(manifest.get(1).contains("damaged"), manifest.get(1));
        Path sound;
        try (var all = Files.walk(folder)) {
            sound = all.filter(p -> p.toString().toLowerCase().endsWith(".wav")).findFirst().orElseThrow();
        }
        byte[] bytes = Files.readAllBytes(sound);
        for (int i = Integer.parseInt(hole.group(1)); i < Integer.parseInt(hole.group(1)) + Integer.parseInt(hole.group(2)); i++) {
            assertEquals((byte) 0xA5, bytes[i], "byte " + i);
        }
        Shell again = extractDialog(files);
        Ui.run(() -> {
            fields(again).get(0).setText(folder.toString());
            Button extract = Ui.all(again, Button.class).stream().filter(b -> b.getText().equals("Extract")).findFirst().orElseThrow();
            assertFalse(extract.isEnabled(), "something is there");
            tick(again, "Go on where");
            RecoverTest.press(again, "Extract");
        });
        Ui.until("nothing is written twice", () -> labels().stream().anyMatch(l -> l.startsWith("0 files, ")));
        assertEquals(manifest, Files.readAllLines(folder.resolve("manifest.csv")));
    }

    private List<String> labels() {
        return Ui.all(files.getParent(), Label.class).stream().map(Label::getText).toList();
    }

    @Test
    void theWantedListIsAnsweredAndLeadsToTheFiles() throws Exception {
        Path list = Files.writeString(Files.createTempFile("sectorglass-wanted", ".csv"), "name,folder,kind,from,to,note\n,,sound,,,the market\nwedding,,,,,\n");
        IViewPart part = Ui.get(() -> Ui.part(RecoverTest.RECOVER + "files"));
        Ui.run(() -> {
            try {
                part.getClass().getMethod("wishes", Path.class).invoke(part, list);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException(e);
            }
        });
        Ui.until("it is answered", () -> shell("Wanted list") != null);
        Ui.run(() -> {
            Table table = Ui.all(shell("Wanted list"), Table.class).get(0);
            assertEquals(2, table.getItemCount());
            assertTrue(table.getItem(0).getText(3).contains("the market"), table.getItem(0).getText(3));
            assertTrue(table.getItem(0).getText(4).startsWith("Found: "), table.getItem(0).getText(4));
            assertEquals("0", table.getItem(1).getText(1));
            assertTrue(table.getItem(1).getText(4).startsWith("Not seen. Part of the table of contents"), table.getItem(1).getText(4));
            Ui.desk().goTo(0, "test");
            table.setSelection(0);
            table.notifyListeners(SWT.Selection, new Event());
            assertTrue(Ui.desk().caret() > 0, "it leads to the sound");
            shell("Wanted list").close();
        });
    }

    @Test
    void smallPicturesAndHashesComeIntoTheReportsOnlyWhenAskedFor() throws Exception {
        Path folder = Files.createTempDirectory("sectorglass-report");
        Shell dialog = RecoverTest.reportDialog();
        Ui.run(() -> {
            fields(dialog).get(0).setText(folder.toString());
            tick(dialog, "Small pictures");
            tick(dialog, "SHA-256");
            RecoverTest.press(dialog, "Write");
        });
        Ui.until("the reports are written", () -> shell("Write reports") != null && shell("Write reports") != dialog);
        Ui.run(() -> RecoverTest.press(shell("Write reports"), "Close"));
        assertTrue(Files.readString(folder.resolve("customer.html")).contains("<img src=\"data:image/jpeg;base64,"));
        String bench = Files.readString(folder.resolve("bench.html"));
        assertTrue(java.util.regex.Pattern.compile("<bdi>[0-9a-f]{64}</bdi>").matcher(bench).find(), bench.substring(bench.indexOf("<body"), bench.indexOf("<body") + 2000));
    }
}
