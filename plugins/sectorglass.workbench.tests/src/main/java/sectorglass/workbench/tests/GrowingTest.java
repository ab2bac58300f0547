package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.swt.widgets.TreeItem;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;
import sectorglass.workbench.InspectPerspective;

/** An image that is still being written, and places of one image that should agree. */
class GrowingTest {

    @BeforeEach
    void openRecover() {
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
    }

    @AfterEach
    void openInspect() {
        RecoverTest.perspective(InspectPerspective.ID);
    }

    private static Shell shell(String title) {
        return Arrays.stream(PlatformUI.getWorkbench().getDisplay().getShells()).filter(s -> s.getText().equals(title)).findFirst().orElse(null);
    }

    private static List<String> column(Shell shell, int column) {
        Table table = Ui.all(shell, Table.class).get(0);
        return Stream.iterate(0, i -> i < table.getItemCount(), i -> i + 1).map(i -> table.getItem(i).getText(column)).toList();
    }

    /** Half of the demo disk, then the rest of it. */
    @Test
    void anImageIsLookedAtAgain() throws Exception {
        byte[] whole = Files.readAllBytes(Ui.demo(Demo.Variant.GPT).image());
        int half = whole.length / 2 / 512 * 512;
        Path image = Files.createTempFile("growing", ".img");
        image.toFile().deleteOnExit();
        Files.write(image, Arrays.copyOf(whole, half));
        Ui.open(image, OpenOptions.DEFAULT);
        Ui.until("it is judged", () -> Ui.desk().open() != null && Ui.desk().open().findings() != null);
        assertEquals(half, Ui.get(() -> Ui.desk().open().image().bytes()));
        Files.write(image, Arrays.copyOfRange(whole, half, whole.length), StandardOpenOption.APPEND);
        Ui.command(RecoverTest.RECOVER + "again");
        Ui.until("what changed is told", () -> shell("What changed since the last look") != null);
        Ui.run(() -> {
            Shell shell = shell("What changed since the last look");
            assertEquals(whole.length, Ui.desk().open().image().bytes());
            List<String> kinds = column(shell, 1);
            assertEquals("sectors gained", kinds.get(0));
            assertTrue(kinds.contains("does not fail any more"), kinds.toString());
            assertTrue(kinds.contains("file complete"), kinds.toString());
            assertTrue(Ui.all(shell, Label.class).get(0).getText().contains("sectors more were read"));
            Table table = Ui.all(shell, Table.class).get(0);
            table.setSelection(0);
            table.notifyListeners(SWT.Selection, new Event());
            assertEquals(half, Ui.desk().caret());
            shell.close();
        });
        Ui.command(RecoverTest.RECOVER + "again");
        Ui.until("nothing changed", () -> shell("What changed since the last look") != null);
        Ui.run(() -> {
            Shell shell = shell("What changed since the last look");
            assertTrue(Ui.all(shell, Label.class).get(0).getText().startsWith("Nothing changed"));
            shell.close();
        });
    }

    /** What opening notices can be read line by line, without a mouse. */
    @Test
    void whatOpeningNoticesStandsInTheTree() throws Exception {
        byte[] whole = Files.readAllBytes(Ui.demo(Demo.Variant.GPT).image());
        int half = whole.length / 2 / 512 * 512;
        Path folder = Files.createTempDirectory("parts");
        Path first = Files.write(folder.resolve("disk.001"), Arrays.copyOf(whole, half));
        Path second = Files.write(folder.resolve("disk.002"), Arrays.copyOfRange(whole, half, whole.length));
        first.toFile().deleteOnExit();
        second.toFile().deleteOnExit();
        Ui.open(first, OpenOptions.DEFAULT);
        Ui.run(() -> {
            TreeItem disk = Ui.all(Ui.part("sectorglass.workbench.disk").getViewSite().getShell(), Tree.class).stream()
                    .filter(t -> t.getItemCount() == 1 && t.getItem(0).getText().startsWith("disk.001")).findFirst().orElseThrow().getItem(0);
            assertTrue(disk.getItem(0).getText().startsWith("Notes on the image"), disk.getItem(0).getText());
            assertEquals(1, disk.getItem(0).getItemCount());
        });
    }

    /** UEFI 2.10, section 5.3.2: what tells two sound copies of a GPT header apart. */
    @Test
    void placesThatShouldAgreeAreCompared() {
        Ui.open(Demo.Variant.GPT);
        Ui.run(() -> {
            Ui.part(RecoverTest.RECOVER + "copies");
            RecoverTest.press(Ui.window(), "Places in this image");
        });
        Ui.until("the places are compared", () -> shell("Places in this image that should agree") != null);
        Ui.run(() -> {
            Shell shell = shell("Places in this image that should agree");
            List<String> names = column(shell, 4);
            int header = names.indexOf("primary GPT header \u2013 backup GPT header");
            assertTrue(header >= 0, names.toString());
            assertTrue(column(shell, 5).get(header).startsWith("HeaderCRC32, MyLBA, AlternateLBA, PartitionEntryLBA"), column(shell, 5).get(header));
            assertTrue(names.stream().anyMatch(n -> n.contains("file record 0")), names.toString());
            shell.close();
        });
    }
}
