package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.handlers.IHandlerService;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.workbench.InspectPerspective;

/** The part Proposals with the disk whose first sector is wiped, and changes by hand. */
class ProposalsTest {
    private static final String PART = RecoverTest.RECOVER + "proposals";
    /** DiskGUID in the backup header, in the last sector of the demo disk. */
    static final long GUID = 524_287L * 512 + 56;

    @BeforeEach
    void openRecover() {
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
    }

    @AfterEach
    void openInspect() {
        RecoverTest.perspective(InspectPerspective.ID);
    }

    /** Opens the wiped disk and looks for corrections. */
    static Table look() {
        Ui.open(Demo.Variant.WIPED);
        Ui.run(() -> {
            Ui.part(PART);
            RecoverTest.press(Ui.window(), "Look for corrections");
        });
        Table list = table("Correction");
        Ui.until("corrections are listed", () -> list.getItemCount() > 0);
        Table rows = table("Before");
        Ui.until("fields before and after are decoded", () -> rows.getItemCount() > 0);
        return list;
    }

    private static Table table(String column) {
        return Ui.get(() -> Ui.all(Table.class).stream().filter(t -> Arrays.stream(t.getColumns()).anyMatch(c -> c.getText().equals(column)))
                .findFirst().orElseThrow());
    }

    @Test
    void fieldsStandSideBySideAndTheDeskShowsTheCorrectedDisk() {
        look();
        Table rows = table("Before");
        Set<String> named = new HashSet<>();
        Ui.run(() -> {
            for (int i = 0; i < rows.getItemCount(); i++) {
                named.add(rows.getItem(i).getText(1));
                assertTrue(!rows.getItem(i).getText(2).equals(rows.getItem(i).getText(3)), rows.getItem(i).getText(1));
            }
        });
        assertTrue(named.stream().anyMatch(name -> name.contains("DiskGUID")), named.toString());
        assertTrue(Ui.get(() -> Ui.desk().open().findings().counts().unusable()) > 0);
        Button show = Ui.get(() -> Ui.all(Button.class).stream().filter(b -> b.getText().equals("Show on the desk")).findFirst().orElseThrow());
        toggle(show, true);
        Ui.until("the corrected disk is judged", () -> Ui.desk().open().findings() != null && Ui.desk().open().findings().counts().unusable() == 0);
        toggle(show, false);
        Ui.until("the disk is shown as it is", () -> Ui.desk().open().findings() != null && Ui.desk().open().findings().counts().unusable() > 0);
    }

    private static void toggle(Button show, boolean on) {
        Ui.run(() -> {
            show.setSelection(on);
            show.notifyListeners(SWT.Selection, new Event());
        });
    }

    /** Opens the dialog for the field at an image byte. */
    static Shell changeDialog(long imageByte) {
        Ui.run(() -> Ui.desk().goTo(imageByte, ""));
        Ui.explained();
        PlatformUI.getWorkbench().getDisplay().asyncExec(() -> {
            try {
                PlatformUI.getWorkbench().getService(IHandlerService.class).executeCommand(RecoverTest.RECOVER + "change", null);
            } catch (Exception e) {
                throw new IllegalStateException(e);
            }
        });
        Ui.until("the dialog is open", () -> dialog() != null);
        return Ui.get(ProposalsTest::dialog);
    }

    private static Shell dialog() {
        return Arrays.stream(PlatformUI.getWorkbench().getDisplay().getShells()).filter(s -> s.getText().equals("Change value")).findFirst().orElse(null);
    }

    @Test
    void aValueChangedByHandIsJudgedUndoneRedoneAndKept() throws Exception {
        Path image = Ui.demo(Demo.Variant.GPT_SOUND).image();
        byte[] before = Files.readAllBytes(image);
        Path job = image.resolveSibling(image.getFileName() + ".job.json");
        Files.deleteIfExists(job);
        Ui.open(Demo.Variant.GPT_SOUND);
        Shell dialog = changeDialog(GUID);
        Ui.run(() -> {
            Text value = Ui.all(dialog, Text.class).stream().filter(t -> t.getText().matches("[0-9a-f]{8}-.*")).findFirst().orElseThrow();
            value.setText("00112233-4455-6677-8899-aabbccddeeff");
            Button follow = Ui.all(dialog, Button.class).stream().filter(b -> b.getText().startsWith("Checksums")).findFirst().orElseThrow();
            follow.setSelection(false);
            RecoverTest.press(dialog, "OK");
        });
        Ui.until("the checks fail with the changed GUID", () -> failing() > 0);
        Ui.until("the changed value is explained", () -> Ui.desk().field() != null
                && "00112233-4455-6677-8899-aabbccddeeff".equalsIgnoreCase(Ui.desk().field().value()));
        assertTrue(Files.readString(job).contains("33221100554477668899aabbccddeeff"), "kept in the job file");
        Ui.command(RecoverTest.RECOVER + "undo");
        Ui.until("taken back", () -> Ui.desk().open().findings() != null && failing() == 0);
        Ui.command(RecoverTest.RECOVER + "redo");
        Ui.until("put on again", () -> failing() > 0);
        Ui.command(RecoverTest.RECOVER + "undo");
        Ui.until("taken back again", () -> Ui.desk().open().findings() != null && failing() == 0);
        assertTrue(Arrays.equals(before, Files.readAllBytes(image)), "the image stays as it is");
        Files.deleteIfExists(job);
    }

    private static int failing() {
        var findings = Ui.desk().open().findings();
        return findings == null ? 0 : findings.counts().unusable() + findings.counts().atRisk();
    }
}
