package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.make.Demo;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.sectors.SectorsCanvas;
import sectorglass.workbench.sectors.TextColumn;

/** "EFI PART" begins both GPT headers: UEFI 2.10, section 5.3.2. */
class FindTest {

    private static Composite part() {
        return Ui.get(() -> {
            Ui.part("sectorglass.workbench.find");
            Text wanted = Ui.all(Text.class).stream().filter(text -> text.getMessage().equals(Texts.of("find.example"))).findFirst().orElseThrow();
            return wanted.getParent().getParent();
        });
    }

    private static void press(Composite part, String key) {
        Ui.run(() -> Ui.all(part, Button.class).stream().filter(button -> button.getText().equals(Texts.of(key))).findFirst().orElseThrow()
                .notifyListeners(SWT.Selection, new Event()));
    }

    @Test
    void bytesAreFoundForwardBackAndAll() {
        Ui.open(Demo.Variant.GPT);
        long last = (Ui.desk().open().image().sectors() - 1) * 512;
        Ui.run(() -> Ui.desk().goTo(0, "test"));
        Composite part = part();
        Ui.run(() -> Ui.all(part, Text.class).get(0).setText("45 46 49 20 50 41 52 5?"));
        press(part, "find.next");
        Ui.until("the primary header is found", () -> Ui.desk().caret() == 512);
        assertEquals(new ByteRange(512, 8), Ui.desk().selection());
        press(part, "find.next");
        Ui.until("the backup header is found", () -> Ui.desk().caret() == last);
        press(part, "find.previous");
        Ui.until("the primary header is found again", () -> Ui.desk().caret() == 512);
        press(part, "find.all");
        Ui.until("both are listed", () -> Ui.all(part, Table.class).get(0).getItemCount() == 2);
    }

    @Test
    void aSelectionIsMeasuredAndCopied() {
        Ui.open(Demo.Variant.GPT);
        SectorsCanvas canvas = Ui.canvas();
        Ui.run(() -> Ui.desk().select(512, 519));
        // CRC-32 of the eight characters by Python: zlib.crc32(b"EFI PART")
        Ui.until("the checksum is shown", () -> Ui.all(StyledText.class).stream().anyMatch(text -> text.getText().contains("94CC656D")));
        Ui.command("sectorglass.workbench.copy.hex");
        Ui.until("the bytes are on the clipboard", () -> Ui.clipboard().equals("45 46 49 20 50 41 52 54"));
        assertTrue(Ui.get(() -> canvas.cell(512)) != null);
    }

    @Test
    void columnsAndTextAreChosenByCommand() {
        SectorsCanvas canvas = Ui.canvas();
        Ui.command("sectorglass.workbench.columns.32");
        assertEquals(32, Ui.get(canvas::columns).intValue());
        Ui.command("sectorglass.workbench.text.utf_16le");
        assertEquals(TextColumn.UTF_16LE, Ui.get(canvas::text));
        Ui.command("sectorglass.workbench.columns.16");
        Ui.command("sectorglass.workbench.text.ascii");
        assertEquals(16, Ui.get(canvas::columns).intValue());
    }
}
