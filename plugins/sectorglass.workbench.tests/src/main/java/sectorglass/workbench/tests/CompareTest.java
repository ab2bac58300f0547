package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.workbench.look.Texts;

/** The demo disk's primary header and its backup; offsets of fields: UEFI 2.10, section 5.3.2, table "GPT Header". */
class CompareTest {

    private static Composite part() {
        return Ui.get(() -> Ui.all(Button.class).stream().filter(button -> button.getText().equals(Texts.of("compare.next"))).findFirst().orElseThrow()
                .getParent().getParent());
    }

    private static void press(Composite part, String key) {
        Ui.run(() -> Ui.all(part, Button.class).stream().filter(button -> button.getText().equals(Texts.of(key))).findFirst().orElseThrow()
                .notifyListeners(SWT.Selection, new Event()));
    }

    private static void until(Composite part, String words) {
        Ui.until(words, () -> Ui.all(part, Label.class).stream().anyMatch(label -> label.getText().contains(words)));
    }

    @Test
    void aHeaderIsComparedWithItsBackup() {
        Ui.open(Demo.Variant.GPT);
        Ui.run(() -> Ui.desk().goTo(512, "test"));
        Ui.explained();
        Ui.command("sectorglass.workbench.compare.backup");
        Composite part = part();
        until(part, "bytes differ");
        // the checksum of the header is the first field that must differ, MyLBA the next
        press(part, "compare.next");
        until(part, "HeaderCRC32");
        until(part, Texts.of("compare.different"));
        Ui.command("sectorglass.workbench.compare.next");
        until(part, "MyLBA");
        press(part, "compare.go");
        Ui.explained();
        assertEquals("MyLBA", Ui.get(() -> Ui.desk().field().label()));
        Ui.command("sectorglass.workbench.compare.previous");
        until(part, "HeaderCRC32");
        press(part, "compare.previous");
        until(part, Texts.of("compare.none.before"));
    }

    @Test
    void whatHasNoCopyIsSaid() {
        Ui.open(Demo.Variant.GPT);
        Ui.run(() -> Ui.desk().goTo(40_000 * 512L, "test"));
        Ui.explained();
        Ui.command("sectorglass.workbench.compare.backup");
        Composite part = part();
        Ui.until("it is said", () -> Ui.all(part, Label.class).stream().anyMatch(label -> label.getText().equals(Texts.of("compare.nostructure"))
                || label.getText().contains("copy of")));
        Ui.run(() -> Ui.desk().show(null, null));
        assertTrue(Ui.get(() -> Ui.all(part, Button.class).stream().noneMatch(b -> b.getText().equals(Texts.of("compare.next")) && b.isEnabled())));
    }
}
