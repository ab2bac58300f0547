package sectorglass.workbench.tests;

import java.io.IOException;
import java.util.List;

import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.jface.preference.PreferenceDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.dialogs.PreferencesUtil;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Theme;
import sectorglass.workbench.parts.ConverterPart;
import sectorglass.workbench.parts.FindingsPart;
import sectorglass.workbench.preferences.HousePage;

/** Pictures of the findings in groups, fields and converter, help, preferences, the cautions, high contrast; see {@link Screenshots}. */
class HabitsScreenshots {

    @Test
    void scenes() throws IOException {
        Screenshots.size();
        for (boolean dark : new boolean[] {false, true}) {
            String theme = Screenshots.theme(dark);
            InstanceScope.INSTANCE.getNode("sectorglass.workbench").remove("cautions.read");
            Ui.run(() -> Ui.desk().show(null, null));
            Ui.open(Demo.Variant.GPT);
            group(1);
            Ui.run(() -> Ui.part(ConverterPart.ID));
            Ui.run(() -> ((ConverterPart) Ui.part(ConverterPart.ID)).type("2026-03-01 14:30 UTC"));
            Screenshots.place(0x1BE + 8, "findings-converter-" + theme);
            Ui.run(() -> Ui.part("sectorglass.workbench.meaning"));
            Screenshots.place(0x1BE + 8, "pointer-" + theme);
            Ui.run(() -> Ui.part("sectorglass.workbench.findings"));
            Ui.command("sectorglass.workbench.help");
            Screenshots.shoot("help-" + theme);
            group(0);
            accepted();
            Screenshots.shoot("findings-accepted-" + theme);
            PreferenceDialog dialog = Ui.get(() -> {
                PreferenceDialog made = PreferencesUtil.createPreferenceDialogOn(Ui.window(), HousePage.ID, null, null);
                made.setBlockOnOpen(false);
                made.open();
                return made;
            });
            Screenshots.shoot("preferences-" + theme);
            Ui.run(dialog::close);
            Ui.run(() -> PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().resetPerspective());
        }
        Ui.run(() -> Look.set(Theme.CONTRAST));
        Ui.open(Demo.Variant.GPT);
        Screenshots.place(512, "gpt-header-contrast" + System.getProperty("uitest.suffix", ""));
        Ui.run(() -> Look.set(Theme.LIGHT));
    }

    private static void accepted() {
        Finding finding = Ui.desk().open().listed().stream().filter(f -> f.check().equals("gpt.entries.crc32")).findFirst().orElseThrow();
        Ui.run(() -> {
            Ui.part(FindingsPart.ID);
            Ui.desk().records().accept(List.of(finding), "bench 3", "the customer repartitioned the disk");
        });
        Ui.until("it is accepted", () -> Ui.desk().records().accepted().has(finding));
        Ui.run(() -> Ui.desk().choose(finding));
        Ui.run(() -> Ui.part("sectorglass.workbench.meaning"));
        Ui.explained();
    }

    private static void group(int index) {
        Ui.run(() -> {
            Composite board = (Composite) ((FindingsPart) Ui.part(FindingsPart.ID)).board().control();
            Combo group = Ui.all(board, Combo.class).get(1);
            group.select(index);
            group.notifyListeners(SWT.Selection, new Event());
        });
    }
}
