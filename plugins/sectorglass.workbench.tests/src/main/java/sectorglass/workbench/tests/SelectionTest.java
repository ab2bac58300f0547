package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.swt.widgets.TreeItem;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.make.Demo;
import sectorglass.verify.Finding;
import sectorglass.workbench.sectors.SectorsCanvas;

/** Offsets of the GPT header: UEFI 2.10, section 5.3.2, table "GPT Header". */
class SelectionTest {
    private static final long HEADER = 512;
    private static final long MY_LBA = HEADER + 24;
    private static final long PARTITION_ENTRY_LBA = HEADER + 72;

    @BeforeEach
    void open() {
        Ui.open(Demo.Variant.GPT);
    }

    private static Tree fields() {
        return Ui.get(() -> {
            Ui.part("sectorglass.workbench.fields");
            return Ui.all(Tree.class).stream().filter(tree -> tree.getColumnCount() == 3).findFirst().orElseThrow();
        });
    }

    @Test
    void aClickOnAByteChoosesItsFieldAndExplainsIt() {
        SectorsCanvas canvas = Ui.canvas();
        Ui.click(canvas, MY_LBA + 3);
        assertEquals("MyLBA", Ui.desk().field().label());
        Tree tree = fields();
        assertEquals("MyLBA", Ui.get(() -> tree.getSelection()[0].getText()));
        String meaning = Ui.get(() -> Ui.all(StyledText.class).get(0).getText());
        assertTrue(meaning.startsWith("MyLBA"), meaning);
        assertTrue(meaning.contains("UEFI"), meaning);
    }

    @Test
    void choosingAFieldInTheTreeLightsItsBytes() {
        Ui.click(Ui.canvas(), MY_LBA);
        Tree tree = fields();
        Ui.run(() -> {
            TreeItem item = Arrays.stream(tree.getItems()).filter(i -> i.getText().equals("PartitionEntryLBA")).findFirst().orElseThrow();
            tree.setSelection(item);
            Event event = new Event();
            event.item = item;
            tree.notifyListeners(SWT.Selection, event);
        });
        Ui.explained();
        assertEquals(new ByteRange(PARTITION_ENTRY_LBA, 8), Ui.desk().selection());
        assertEquals(PARTITION_ENTRY_LBA, Ui.desk().caret());
    }

    @Test
    void enterFollowsAPointerAndBackspaceReturns() {
        SectorsCanvas canvas = Ui.canvas();
        Ui.click(canvas, PARTITION_ENTRY_LBA);
        Ui.key(canvas, SWT.CR, 0);
        Ui.explained();
        assertEquals(2 * 512, Ui.desk().caret(), "the entries of the demo disk begin at LBA 2");
        Ui.key(canvas, SWT.BS, 0);
        Ui.explained();
        assertEquals(PARTITION_ENTRY_LBA, Ui.desk().caret());
    }

    @Test
    void aFindingOpensItsBytesAndIsExplained() {
        Table table = Ui.get(() -> {
            Ui.part("sectorglass.workbench.findings");
            return Ui.all(Table.class).get(0);
        });
        Finding crc = Ui.desk().open().listed().stream().filter(f -> f.check().equals("gpt.entries.crc32")).findFirst().orElseThrow();
        Ui.run(() -> {
            for (int i = 0; i < table.getItemCount(); i++) {
                if (table.getItem(i).getData() == crc) {
                    table.setSelection(i);
                    Event event = new Event();
                    event.item = table.getItem(i);
                    table.notifyListeners(SWT.Selection, event);
                }
            }
        });
        Ui.explained();
        assertEquals(crc.where().start(), Ui.desk().caret());
        String meaning = Ui.get(() -> Ui.all(StyledText.class).get(0).getText());
        assertTrue(meaning.contains(crc.means()) && meaning.contains(crc.stored()) && meaning.contains(crc.computed()), meaning);
    }
}
