package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Method;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.swt.widgets.TreeItem;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.WorkbenchException;
import org.eclipse.ui.handlers.IHandlerService;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.image.OpenOptions;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;
import sectorglass.make.Demo;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;
import sectorglass.workbench.InspectPerspective;

/** The perspective Recover with the disk of which only a part was read. Its parts are found by their ids and by what they show. */
class RecoverTest {
    static final String RECOVER = "sectorglass.workbench.recovery.";
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

    static void perspective(String id) {
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

    /** From a file to its sectors, on the strip and in the list of runs, and from the sector back to the file. */
    @Test
    void aFileLeadsToItsSectorsAndASectorToItsFile() {
        Tree files = tree();
        Text filter = Ui.get(() -> Ui.all(files.getParent(), Text.class).get(0));
        Ui.run(() -> {
            Combo states = Ui.all(files.getParent(), Combo.class).get(1);
            states.select(0);
            states.notifyListeners(SWT.Selection, new Event());
            filter.setText("*.jpg");
        });
        Ui.until("pictures are listed", () -> files.getItemCount() > 0 && files.getItem(0).getText(0).endsWith(".JPG"));
        String path = Ui.get(() -> files.getItem(0).getText(0));
        Ui.run(() -> {
            files.setSelection(files.getItem(0));
            files.notifyListeners(SWT.Selection, new Event());
        });
        Ui.until("its sectors are marked", () -> !Ui.desk().marked().sectors().isEmpty());
        Ui.run(() -> press(files.getParent(), "Show runs"));
        Ui.until("the runs are listed", () -> runs() != null);
        Ui.run(() -> {
            Table list = Ui.all(runs(), Table.class).get(0);
            list.setSelection(0);
            list.notifyListeners(SWT.Selection, new Event());
            long lba = Ui.desk().caret() / Ui.desk().open().image().sectorSize();
            assertEquals(lba, Ui.desk().marked().sectors().run(0).first());
            assertEquals(String.valueOf(lba), list.getItem(0).getText(2).replaceAll("\\D", ""));
            runs().close();
            files.deselectAll();
            press(files.getParent(), "File at caret");
        });
        String name = path.substring(path.lastIndexOf('/') + 1);
        Ui.until("the file is chosen", () -> files.getSelectionCount() == 1 && files.getSelection()[0].getText(0).equals(name));
    }

    private static Shell runs() {
        return Arrays.stream(PlatformUI.getWorkbench().getDisplay().getShells()).filter(s -> s.getText().startsWith("Runs of ")).findFirst()
                .orElse(null);
    }

    @Test
    void testsSayWhetherFilesOpen() {
        Tree files = testAll();
        Text filter = Ui.get(() -> Ui.all(files.getParent(), Text.class).get(0));
        Ui.run(() -> filter.setText("*.jpg"));
        Ui.until("pictures have results", () -> files.getItemCount() > 0 && files.getItem(0).getText(4).contains("JPEG"));
        Ui.run(() -> {
            for (int i = 0; i < Math.min(10, files.getItemCount()); i++) {
                assertTrue(files.getItem(i).getText(4).matches("(deleted . )?(opened|damaged) .*"), files.getItem(i).getText(4));
            }
            filter.setText("");
        });
    }

    @Test
    void copiesThatDifferAreNamed() throws Exception {
        long lba = compareWithChanged();
        Table ranges = Ui.get(() -> Ui.all(Table.class).stream().filter(t -> t.getColumnCount() == 5 && t.getColumn(4).getText().equals("Why")
                && t.getColumn(0).getText().equals("First LBA")).findFirst().orElseThrow());
        Ui.until("the copies are compared", () -> ranges.getItemCount() > 0);
        Ui.run(() -> {
            assertEquals(1, ranges.getItemCount());
            assertEquals(String.valueOf(lba), ranges.getItem(0).getText(0).replaceAll("\\D", ""));
        });
    }

    /** Compares the demo disk with a copy in which one sector that was read holds other bytes; gives its LBA. */
    static long compareWithChanged() throws Exception {
        Demo.Written demo = Ui.demo(Demo.Variant.PARTLY_READ);
        Path copy = demo.image().resolveSibling("second-pass.img");
        Files.copy(demo.image(), copy, StandardCopyOption.REPLACE_EXISTING);
        Files.copy(demo.readMap(), copy.resolveSibling("second-pass.csv"), StandardCopyOption.REPLACE_EXISTING);
        SectorImage image = Ui.get(() -> Ui.desk().open().image());
        SectorRanges read = image.inState(ReadState.READ, image.all());
        long lba = read.run(read.runs() - 1).first();
        try (FileChannel out = FileChannel.open(copy, StandardOpenOption.WRITE)) {
            out.write(ByteBuffer.wrap("other bytes than the first pass".getBytes(StandardCharsets.US_ASCII)), lba * image.sectorSize());
        }
        IViewPart part = Ui.get(() -> Ui.part(RECOVER + "copies"));
        Method add = part.getClass().getMethod("add", List.class);
        Ui.run(() -> {
            try {
                add.invoke(part, List.of(copy));
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException(e);
            }
        });
        Ui.until("the copy is there", () -> Ui.all(Button.class).stream().anyMatch(b -> b.getText().equals("Compare") && b.isEnabled()));
        Ui.run(() -> press(Ui.window(), "Compare"));
        return lba;
    }

    @Test
    void anImportedLogChangesTheReadStates() throws Exception {
        SectorImage before = Ui.get(() -> Ui.desk().open().image());
        Ui.open(Ui.demo(Demo.Variant.GPT).image(), OpenOptions.DEFAULT);
        assertEquals(ReadState.READ, Ui.get(() -> Ui.desk().open().image().state(2000)));
        assertNotEquals(before, Ui.get(() -> Ui.desk().open().image()));
        Path log = log();
        Shell dialog = importDialog(log);
        Table preview = Ui.get(() -> Ui.all(dialog, Table.class).get(0));
        Ui.run(() -> {
            assertEquals(3, preview.getItemCount());
            assertFalse(preview.getItem(1).getText(5).isEmpty(), "the second line has a problem");
            Button tolerant = Ui.all(dialog, Button.class).stream().filter(b -> b.getText().startsWith("leave out")).findFirst().orElseThrow();
            tolerant.setSelection(true);
            tolerant.notifyListeners(SWT.Selection, new Event());
            press(dialog, "Apply");
        });
        Ui.until("the log counts", () -> Ui.desk().open().image().state(2000) == ReadState.FAILED);
        Ui.until("the disk is judged again", () -> Ui.desk().open().findings() != null);
        assertEquals(ReadState.READ, Ui.get(() -> Ui.desk().open().image().state(10)));
        Ui.run(() -> {
            // LBA 2048 to 2099 failed; nobody mentions the rest of the first partition
            List<String> lines = Arrays.stream(Ui.all(Tree.class).stream().filter(t -> t.getItemCount() == 1 && t.getItem(0).getText().startsWith("demo-gpt.img"))
                    .findFirst().orElseThrow().getItem(0).getItems()).map(i -> i.getText()).toList();
            assertTrue(lines.stream().anyMatch(l -> l.contains("Paperwork") && l.contains("52 failed, 32\u2009716 unread")), lines.toString());
        });
        Files.writeString(log, "0,2000,read\nhere,2,read\n2000,100,read\n2100,30");
        command("again");
        Ui.until("the log is read again", () -> Ui.desk().open().image().state(2000) == ReadState.READ);
        Ui.until("what changed is told", () -> dialog("What changed since the last look") != null);
        Ui.run(() -> dialog("What changed since the last look").close());
    }

    /** A text log of three lines, the second of which cannot be read. */
    static Path log() throws Exception {
        Path log = Files.createTempFile("sectorglass-log", ".txt");
        log.toFile().deleteOnExit();
        return Files.writeString(log, "0,2000,read\nhere,2,read\n2000,100,failed\n");
    }

    /** Tests all files of the volume that is shown. */
    static Tree testAll() {
        Tree files = tree();
        Ui.run(() -> {
            files.deselectAll();
            press(files.getParent(), "Test");
        });
        Ui.until("the files are tested", () -> Ui.all(files.getParent(), Label.class).stream().anyMatch(l -> l.getText().startsWith("Tested: ")));
        return files;
    }

    @Test
    void reportsAreWrittenFromTheWindow() throws Exception {
        Path folder = Files.createTempDirectory("sectorglass-report");
        Shell dialog = reportDialog();
        Ui.run(() -> {
            List<Text> fields = Ui.all(dialog, Text.class).stream().filter(t -> (t.getStyle() & SWT.READ_ONLY) == 0).toList();
            assertFalse(Ui.all(dialog, Button.class).stream().filter(b -> b.getText().equals("Write")).findFirst().orElseThrow().isEnabled());
            fields.get(0).setText(folder.toString());
            fields.get(1).setText("2026-117");
            press(dialog, "Write");
        });
        Ui.until("the reports are written", () -> dialog("Write reports") != null && dialog("Write reports") != dialog);
        Ui.run(() -> press(dialog("Write reports"), "Close"));
        assertTrue(Files.readString(folder.resolve("customer.html")).contains("Reference 2026-117"));
        assertTrue(Files.size(folder.resolve("customer.pdf")) > 10_000);
        assertTrue(Files.exists(folder.resolve("bench.html")));
    }

    /** Recorded in the window, kept in the job file, shown in Files, and there again when the image is opened. */
    @Test
    void theCustomersApprovalIsRecordedAndShown() throws Exception {
        Demo.Written demo = Ui.demo(Demo.Variant.PARTLY_READ);
        Path image = Files.copy(demo.image(), Files.createTempDirectory("sectorglass-approval").resolve("disk.img"));
        OpenOptions options = OpenOptions.DEFAULT.withReadMap(demo.readMap());
        Ui.open(image, options);
        Tree files = tree();
        assertTrue(Ui.get(() -> labels(files.getParent())).contains("No approval recorded."));
        Shell dialog = approvalDialog();
        Ui.run(() -> {
            Button record = Ui.all(dialog, Button.class).stream().filter(b -> b.getText().equals("Record")).findFirst().orElseThrow();
            assertFalse(record.isEnabled(), "who and how are needed");
            List<Text> fields = Ui.all(dialog, Text.class).stream().filter(t -> (t.getStyle() & SWT.READ_ONLY) == 0).toList();
            fields.get(0).setText("2026-117");
            fields.get(1).setText("2026-02-30");
            Ui.all(dialog, Combo.class).get(0).setText("by telephone");
            fields.get(2).setText("all but the films");
            fields.get(3).setText("bench 3");
            assertFalse(record.isEnabled(), "no such day");
            fields.get(1).setText("2026-02-03");
            press(dialog, "Record");
        });
        String sentence = "Approved by 2026-117 on 2026-02-03, by telephone.";
        Ui.until("it is shown", () -> labels(files.getParent()).contains(sentence));
        Job job = JobFile.open(JobFile.beside(image)).job();
        assertEquals(List.of("2026-117", "by telephone", "all but the films", "bench 3"),
                List.of(job.approvals().get(0).by(), job.approvals().get(0).how(), job.approvals().get(0).note(), job.approvals().get(0).who()));
        assertEquals(1, job.log().size());
        assertTrue(job.log().get(0).what().startsWith("approval by 2026-117, by telephone, received 2026-02-0"), job.log().get(0).what());
        Ui.open(image, options);
        Ui.until("it is there again", () -> labels(files.getParent()).contains(sentence));
        Shell again = approvalDialog();
        assertEquals("all but the films", Ui.get(() -> Ui.all(again, Table.class).get(0).getItem(0).getText(3)));
        Ui.run(() -> press(again, "Cancel"));
    }

    private static List<String> labels(Control root) {
        return Ui.all(root, Label.class).stream().map(Label::getText).toList();
    }

    /** Opens the dialog for the customer's approval. */
    static Shell approvalDialog() {
        command("approval");
        Ui.until("the dialog is open", () -> dialog("Customer\u2019s approval") != null);
        return Ui.get(() -> dialog("Customer\u2019s approval"));
    }

    /** Opens the dialog for reports. */
    static Shell reportDialog() {
        command("report");
        Ui.until("the dialog is open", () -> dialog("Write reports") != null);
        return Ui.get(() -> dialog("Write reports"));
    }

    private static void command(String id) {
        PlatformUI.getWorkbench().getDisplay().asyncExec(() -> {
            try {
                PlatformUI.getWorkbench().getService(IHandlerService.class).executeCommand(RECOVER + id, null);
            } catch (Exception e) {
                throw new IllegalStateException(e);
            }
        });
    }

    /** Opens the dialog with a log. */
    static Shell importDialog(Path log) {
        command("states");
        Ui.until("the dialog is open", () -> dialog("Import read states") != null);
        Shell dialog = Ui.get(() -> dialog("Import read states"));
        Ui.run(() -> Ui.all(dialog, Text.class).stream().filter(t -> t.getMessage().startsWith("text log")).findFirst().orElseThrow()
                .setText(log.toString()));
        return dialog;
    }

    static Shell dialog(String title) {
        return Arrays.stream(PlatformUI.getWorkbench().getDisplay().getShells()).filter(s -> s.getText().equals(title)).findFirst()
                .orElse(null);
    }

    private static Tree tree() {
        Tree files = Ui.get(() -> {
            Ui.part(RECOVER + "files");
            return Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 5).findFirst().orElseThrow();
        });
        Ui.until("files are listed", () -> files.getItemCount() > 0);
        return files;
    }

    static void press(Control root, String text) {
        Button button = Ui.all(root, Button.class).stream().filter(b -> b.getText().equals(text)).findFirst().orElseThrow();
        assertTrue(button.isEnabled(), text);
        button.notifyListeners(SWT.Selection, new Event());
    }
}
