package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;

import org.eclipse.jface.preference.IPreferencePage;
import org.eclipse.jface.preference.PreferenceDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.swt.widgets.TreeItem;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.dialogs.PreferencesUtil;
import org.junit.jupiter.api.Test;

import sectorglass.decode.FormatInfo;
import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;
import sectorglass.workbench.InspectPerspective;
import sectorglass.workbench.byhand.ApplyFormat;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Theme;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.parts.ConverterPart;
import sectorglass.workbench.parts.KeysPart;
import sectorglass.workbench.preferences.HousePage;

/** Help, converter, formats by hand, preferences. */
class HabitsTest {

    static String help() {
        return Ui.get(() -> String.join("\n", ((KeysPart) Ui.part(KeysPart.ID)).shown()));
    }

    @Test
    void f1TellsOfThePartOneStandsIn() {
        Ui.open(Demo.Variant.GPT);
        for (String part : new String[] {"strip", "disk", "sectors", "fields", "meaning", "findings", "find", "converter"}) {
            Ui.run(() -> Ui.part("sectorglass.workbench." + part));
            Ui.command("sectorglass.workbench.help");
            assertTrue(help().startsWith(Texts.of("page." + part + ".title") + "\n"), part + ": " + help());
        }
        Ui.command("sectorglass.workbench.card");
        assertTrue(help().contains("F4"), help());
        Ui.command("sectorglass.workbench.guide");
        assertTrue(help().contains("First start"), help());
        Ui.command("sectorglass.workbench.learn");
        assertTrue(help().contains("1FE"), help());
    }

    @Test
    void theLearnDoorOpensTheLessons() {
        Ui.run(() -> Ui.desk().show(null, null));
        Ui.run(() -> Ui.all(Button.class).stream().filter(b -> b.getText().equals(Texts.of("welcome.learn"))).findFirst().orElseThrow()
                .notifyListeners(SWT.Selection, new Event()));
        assertEquals("sectorglass.workbench.learning.learn",
                Ui.get(() -> PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().getPerspective().getId()));
        Ui.until("the lessons are listed", () -> Ui.all(Learner.face(), Table.class).get(0).getItemCount() > 0);
        RecoverTest.perspective(InspectPerspective.ID);
    }

    @Test
    void theConverterTakesTheValueAtTheCaret() {
        Ui.open(Demo.Variant.GPT);
        ConverterPart part = Ui.get(() -> (ConverterPart) Ui.part(ConverterPart.ID));
        Ui.run(() -> Ui.desk().goTo(0x1C6, "typed")); // StartingLBA of the first entry, UEFI 2.10, 5.2.1
        Ui.explained();
        Composite content = Ui.get(() -> Ui.all(Button.class).stream().filter(b -> b.getText().equals(Texts.of("convert.take"))).findFirst()
                .orElseThrow().getParent());
        Ui.run(() -> Ui.all(content, Button.class).get(0).notifyListeners(SWT.Selection, new Event()));
        String forms = Ui.get(() -> Ui.all(content, StyledText.class).get(0).getText());
        assertTrue(forms.contains("0x1"), forms);
        Ui.run(() -> part.type("0/32/33"));
        forms = Ui.get(() -> Ui.all(content, StyledText.class).get(0).getText());
        assertTrue(forms.contains("2\u2009048"), forms);
    }

    @Test
    void unexplainedBytesAreListedAndOpened() {
        Ui.open(Demo.Variant.GPT);
        Ui.run(() -> Ui.desk().goTo(512 + 16, "typed"));
        Ui.explained();
        IViewPart fields = Ui.get(() -> Ui.part("sectorglass.workbench.fields"));
        Tree tree = Ui.get(() -> Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 3).findFirst().orElseThrow());
        TreeItem gaps = Ui.get(() -> Arrays.stream(tree.getItems()).filter(item -> item.getText().equals(Texts.of("fields.gaps"))).findFirst()
                .orElse(null));
        assertNotEquals(null, fields);
        if (gaps != null) { // the header's reserved bytes may be a field of the spec
            assertTrue(Ui.get(() -> gaps.getText(1)).contains("bytes"));
        }
    }

    @Test
    void aFormatByHandExplainsBytesUntilItIsGivenUp() {
        Ui.open(Demo.Variant.GPT);
        long free = Ui.desk().open().image().bytes() / 2 + 3; // no structure there, and no sector begins there
        Ui.run(() -> Ui.desk().goTo(free, "typed"));
        Ui.explained();
        assertNull(Ui.desk().explained());
        FormatInfo mbr = Bench.catalogue().formats().stream().filter(f -> f.id().equals("mbr")).findFirst()
                .orElseGet(() -> Bench.catalogue().formats().stream().filter(f -> f.id().contains("mbr")).findFirst().orElseThrow());
        Ui.run(() -> ApplyFormat.apply(mbr, Ui.window()));
        Ui.until("the format explains the bytes", () -> Ui.desk().explained() != null && Ui.desk().explained().structure().range().start() == free);
        assertEquals(512, Ui.desk().explained().structure().range().length(), "a master boot record has 512 bytes");
        // the choice is kept for the image
        Ui.open(Ui.demo(Demo.Variant.GPT).image(), OpenOptions.DEFAULT);
        Ui.run(() -> Ui.desk().goTo(free + 100, "typed"));
        Ui.explained();
        assertEquals(mbr.id(), Ui.desk().explained().structure().format());
        Ui.run(ApplyFormat::withdraw);
        Ui.explained();
        assertNull(Ui.desk().explained());
        Ui.open(Ui.demo(Demo.Variant.GPT).image(), OpenOptions.DEFAULT);
        Ui.run(() -> Ui.desk().goTo(free + 100, "typed"));
        Ui.explained();
        assertNull(Ui.desk().explained());
    }

    @Test
    void theThemeIsChosenOnThePreferencesPage() {
        PreferenceDialog dialog = Ui.get(() -> {
            PreferenceDialog made = PreferencesUtil.createPreferenceDialogOn(Ui.window(), HousePage.ID, null, null);
            made.setBlockOnOpen(false);
            made.open();
            return made;
        });
        try {
            IPreferencePage page = Ui.get(() -> (IPreferencePage) dialog.getSelectedPage());
            List<Combo> combos = Ui.get(() -> Ui.all(page.getControl(), Combo.class));
            Ui.run(() -> {
                combos.get(0).select(Theme.CONTRAST.ordinal());
                page.performOk();
            });
            assertEquals(Theme.CONTRAST, Ui.get(Ink::theme));
            assertTrue(Ui.get(() -> Ink.engine().getActiveTheme().getId()).contains("contrast"));
        } finally {
            Ui.run(() -> {
                Look.set(Theme.LIGHT);
                dialog.close();
            });
        }
    }
}
