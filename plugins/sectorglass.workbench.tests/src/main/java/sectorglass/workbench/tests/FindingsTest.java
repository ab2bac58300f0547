package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.dnd.Clipboard;
import org.eclipse.swt.dnd.TextTransfer;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.swt.widgets.Text;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.image.OpenOptions;
import sectorglass.image.SectorRanges;
import sectorglass.make.Demo;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.parts.FindingsPart;

class FindingsTest {
    private FindingsPart part;

    @BeforeEach
    void open() {
        Ui.open(Demo.Variant.GPT);
        part = Ui.get(() -> (FindingsPart) Ui.part(FindingsPart.ID));
        group("findings.group.none");
    }

    @AfterEach
    void plain() {
        group("findings.group.none");
    }

    private Composite board() {
        return (Composite) part.board().control();
    }

    private Table table() {
        return Ui.all(board(), Table.class).get(0);
    }

    private void group(String key) {
        choose("findings.group.tip", Texts.of(key));
    }

    private void choose(String tip, String word) {
        Ui.run(() -> {
            Combo combo = Ui.all(board(), Combo.class).stream().filter(c -> Texts.of(tip).equals(c.getToolTipText())).findFirst().orElseThrow();
            combo.select(Arrays.asList(combo.getItems()).indexOf(word));
            combo.notifyListeners(SWT.Selection, new Event());
        });
    }

    private List<String> column(int index) {
        return Ui.get(() -> Arrays.stream(table().getItems()).map(item -> item.getText(index)).toList());
    }

    private void select(int row) {
        Ui.run(() -> {
            TableItem item = table().getItem(row);
            table().setSelection(item);
            Event event = new Event();
            event.item = item;
            table().notifyListeners(SWT.Selection, event);
        });
        Ui.explained();
    }

    @Test
    void eachFindingOpensItsBytes() {
        int rows = Ui.get(() -> table().getItemCount());
        assertEquals(Ui.desk().open().listed().size(), rows);
        for (int i = 0; i < rows; i++) {
            select(i);
            assertEquals(Ui.desk().finding().where().start(), Ui.desk().caret());
            int row = i;
            assertEquals(Ui.desk().finding().what(), Ui.get(() -> table().getItem(row).getText(1)));
        }
    }

    @Test
    void severitiesAndVolumesFilter() {
        Button cosmetic = Ui.get(() -> Ui.all(board(), Button.class).stream().filter(b -> b.getText().equals(Texts.of("sign.cosmetic"))).findFirst()
                .orElseThrow());
        Ui.run(() -> {
            cosmetic.setSelection(false);
            cosmetic.notifyListeners(SWT.Selection, new Event());
        });
        assertTrue(column(0).stream().noneMatch(Texts.of("sign.cosmetic")::equals));
        Ui.run(() -> {
            cosmetic.setSelection(true);
            cosmetic.notifyListeners(SWT.Selection, new Event());
        });
        int volume = Ui.desk().open().listed().stream().filter(f -> f.volume() != null).findFirst().orElseThrow().volume();
        long ofIt = Ui.desk().open().listed().stream().filter(f -> f.volume() != null && f.volume() == volume).count();
        choose("findings.volume.tip", Texts.of("findings.volume.one", volume));
        assertEquals((int) ofIt, (int) Ui.get(() -> table().getItemCount()));
        choose("findings.volume.tip", Texts.of("findings.volume.all"));
    }

    /** Accepted with a reason, it stays in the list and says so; the filter knows it; it is there again after opening; it can be withdrawn. */
    @Test
    void aFindingIsAcceptedKeptFilteredAndWithdrawn() throws Exception {
        Path image = Files.copy(Ui.demo(Demo.Variant.GPT).image(), Files.createTempDirectory("sectorglass-accept").resolve("disk.img"));
        Path job = JobFile.beside(image);
        Ui.open(image, OpenOptions.DEFAULT);
        int all = Ui.get(() -> table().getItemCount());
        int row = column(6).indexOf("gpt.entries.crc32");
        long at = Ui.desk().open().listed().stream().filter(f -> f.check().equals("gpt.entries.crc32")).findFirst().orElseThrow().where().start();
        select(row);
        reason("findings.accept", "findings.accept.title", "findings.accept.do", "the customer repartitioned it");
        Ui.until("it says that it is accepted", () -> table().getItem(column(6).indexOf("gpt.entries.crc32")).getText(0)
                .equals(Texts.of("findings.accepted.sign", Texts.of("sign.unusable"))));
        Job kept = JobFile.open(job).job();
        assertEquals(1, kept.accepted().size());
        assertEquals("gpt.entries.crc32", kept.accepted().get(0).check());
        assertEquals(at, kept.accepted().get(0).firstByte());
        assertEquals("bench 3", kept.accepted().get(0).who());
        assertEquals("the customer repartitioned it", kept.accepted().get(0).note());
        assertEquals(all, Ui.get(() -> table().getItemCount()), "nothing is hidden");

        Ui.open(image, OpenOptions.DEFAULT);
        choose("findings.accepted.tip", Texts.of("findings.accepted.accepted"));
        Ui.until("only the accepted one is listed", () -> table().getItemCount() == 1 && table().getItem(0).getText(6).equals("gpt.entries.crc32"));
        choose("findings.accepted.tip", Texts.of("findings.accepted.open"));
        assertEquals(all - 1, Ui.get(() -> table().getItemCount()));
        choose("findings.accepted.tip", Texts.of("findings.accepted.any"));
        select(column(6).indexOf("gpt.entries.crc32"));
        String meaning = Ui.get(() -> Ui.all(StyledText.class).stream().map(StyledText::getText).filter(text -> text.contains("gpt.entries.crc32")).findFirst()
                .orElseThrow());
        assertTrue(meaning.contains("the customer repartitioned it"), meaning);
        reason("findings.withdraw", "findings.withdraw.title", "findings.withdraw.do", "wrong disk");
        Ui.until("it is withdrawn", () -> table().getItem(column(6).indexOf("gpt.entries.crc32")).getText(0).equals(Texts.of("sign.unusable")));
        Job after = JobFile.open(job).job();
        assertEquals(List.of(), after.accepted());
        assertEquals(2, after.log().size());
        assertEquals("acceptance withdrawn: gpt.entries.crc32=" + at + ": wrong disk", after.log().get(1).what());
    }

    private void reason(String button, String title, String does, String why) {
        Display display = PlatformUI.getWorkbench().getDisplay();
        display.asyncExec(() -> RecoverTest.press(board(), Texts.of(button)));
        Ui.until("the dialog is open", () -> shell(title) != null);
        Ui.run(() -> {
            Button record = Ui.all(shell(title), Button.class).stream().filter(b -> b.getText().equals(Texts.of(does))).findFirst().orElseThrow();
            assertFalse(record.isEnabled(), "a reason is needed");
            List<Text> fields = Ui.all(shell(title), Text.class).stream().filter(text -> (text.getStyle() & SWT.READ_ONLY) == 0).toList();
            fields.get(0).setText(why);
            fields.get(1).setText("bench 3");
            RecoverTest.press(shell(title), Texts.of(does));
        });
        Ui.settle();
    }

    private static Shell shell(String title) {
        return Arrays.stream(Display.getCurrent().getShells()).filter(s -> s.getText().equals(Texts.of(title))).findFirst().orElse(null);
    }

    @Test
    void groupsStandUnderTheNameOfTheirStructure() {
        group("findings.group.structure");
        List<String> heads = column(1).stream().filter(text -> text.startsWith("\u25BE")).toList();
        assertTrue(heads.stream().anyMatch(head -> head.toLowerCase(java.util.Locale.ROOT).contains("gpt")), heads.toString());
        int open = Ui.get(() -> table().getItemCount());
        int head = column(1).indexOf(heads.get(0));
        Ui.run(() -> {
            table().setSelection(head);
            table().notifyListeners(SWT.DefaultSelection, new Event());
        });
        assertTrue(Ui.get(() -> table().getItemCount()) < open);
    }

    @Test
    void rowsAreCopiedAsATable() {
        Ui.run(() -> {
            table().setSelection(0);
            Event event = new Event();
            event.keyCode = 'c';
            event.stateMask = SWT.MOD1;
            table().notifyListeners(SWT.KeyDown, event);
        });
        String copied = Ui.get(() -> {
            Clipboard clipboard = new Clipboard(Display.getCurrent());
            try {
                return (String) clipboard.getContents(TextTransfer.getInstance());
            } finally {
                clipboard.dispose();
            }
        });
        assertTrue(copied.startsWith(Texts.of("findings.severity") + "\t"), copied);
        assertTrue(copied.contains(column(1).get(0)), copied);
        assertEquals(2, copied.split("\n").length);
    }

    @Test
    void whatIsShownIsExported() throws Exception {
        Path file = Files.createTempDirectory("findings").resolve("list.json");
        Ui.run(() -> part.board().export(file));
        Ui.until("the file is there", () -> Files.exists(file));
        String json = Files.readString(file);
        assertTrue(json.startsWith("{\"findings\":[{\"id\":"), json.substring(0, 40));
        assertEquals(Ui.desk().open().listed().size(), json.split("\"check\":").length - 1);
    }

    @Test
    void widthsAndOrderOfColumnsAreKept() {
        Ui.run(() -> {
            table().setColumnOrder(new int[] {2, 0, 1, 3, 4, 5, 6});
            table().getColumn(3).setWidth(133);
            part.getSite().getPage().hideView(part);
        });
        part = Ui.get(() -> (FindingsPart) Ui.part(FindingsPart.ID));
        assertEquals(2, Ui.get(() -> table().getColumnOrder()[0]));
        assertEquals(133, Ui.get(() -> table().getColumn(3).getWidth()));
        Ui.run(() -> {
            table().setColumnOrder(new int[] {0, 1, 2, 3, 4, 5, 6});
            for (TableColumn column : table().getColumns()) {
                column.setWidth(column.getText().equals(Texts.of("findings.what")) ? 430 : 150);
            }
        });
    }

    @Test
    void aHundredThousandFindingsAreNoDelay() {
        OpenDisk open = Ui.desk().open();
        List<Finding> many = new ArrayList<>();
        for (int i = 0; i < 100_000; i++) {
            many.add(new Finding(i + 1, "test." + i % 11, Verdict.FAILED, Severity.values()[i % 3], new ByteRange(i * 1024L, 4),
                    new ByteRange(i * 1024L, 1024), "0x1", "0x2", "finding " + i, "means", "advice", "source", i % 4 + 1, null, SectorRanges.EMPTY, null, 1,
                    Map.of()));
        }
        Findings findings = new Findings(many, new Findings.Counts(33_334, 33_333, 33_333, 0, 0));
        long[] blocked = new long[1];
        Ui.run(() -> blocked[0] = blocked(() -> Ui.desk().judged(open, findings)));
        Ui.until("all are listed", () -> table().getItemCount() == 100_000);
        long[] filtered = new long[1];
        Text words = Ui.get(() -> Ui.all(board(), Text.class).get(0));
        Ui.run(() -> filtered[0] = blocked(() -> words.setText("finding 99")));
        Ui.until("1,111 and itself are left", () -> table().getItemCount() == 1_111);
        Ui.run(() -> words.setText(""));
        Ui.until("all are listed again", () -> table().getItemCount() == 100_000);
        System.out.println("100,000 findings: the window was held for " + blocked[0] + " ms of processor time to list them, " + filtered[0] + " ms to filter");
        assertTrue(filtered[0] < 100, "ms: " + filtered[0]);
    }

    /** Processor time of the window's thread; the clock would count other work on the machine. */
    private static long blocked(Runnable what) {
        java.lang.management.ThreadMXBean threads = java.lang.management.ManagementFactory.getThreadMXBean();
        long began = threads.getCurrentThreadCpuTime();
        what.run();
        return (threads.getCurrentThreadCpuTime() - began) / 1_000_000;
    }
}
