package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.ImageData;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.ui.IViewPart;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Partition;
import sectorglass.image.Progress;
import sectorglass.make.Demo;
import sectorglass.workbench.InspectPerspective;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Tone;

/** The drawing of what was recovered: its words against a count of this test's own, its textures, the way to the files. */
class DrawingTest {
    private static final List<String> PICTURES = List.of("jpg", "jpeg", "jpe", "jfif", "png", "gif", "bmp", "tif", "tiff", "webp", "heic", "heif", "avif", "psd", "svg", "ico");
    private IViewPart part;
    private Canvas bars;

    @BeforeEach
    void openDrawing() {
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
        Ui.open(Demo.Variant.PARTLY_READ);
        part = Ui.get(() -> Ui.part(RecoverTest.RECOVER + "drawing"));
        bars = Ui.get(() -> Ui.all(Canvas.class).stream().filter(c -> c.getClass().getSimpleName().equals("BarsCanvas")).findFirst().orElseThrow());
        choose(1, 0);
        choose(2, 0);
        Ui.until("bars are drawn", () -> !lines().isEmpty());
    }

    @AfterEach
    void openInspect() {
        RecoverTest.perspective(InspectPerspective.ID);
    }

    @SuppressWarnings("unchecked")
    private List<String> lines() {
        try {
            return (List<String>) part.getClass().getMethod("lines").invoke(part);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(e);
        }
    }

    private void choose(int combo, int index) {
        Ui.run(() -> {
            Combo box = Ui.all(bars.getParent(), Combo.class).get(combo);
            box.select(index);
            box.notifyListeners(SWT.Selection, new Event());
        });
    }

    /** Pictures of the largest volume that are neither deleted nor a folder, counted by the endings of their names. */
    private static long pictures() {
        Partition largest = Ui.desk().open().disk().partitions().stream().max((a, b) -> Long.compare(a.range().count(), b.range().count())).orElseThrow();
        FileTree tree = largest.volume().capability(Files.class).orElseThrow().tree(Progress.NONE);
        long[] count = new long[1];
        tree.walk(tree.root(), (entry, depth) -> {
            String name = tree.name(entry).toLowerCase(java.util.Locale.ROOT);
            if (!tree.folder(entry) && !tree.deleted(entry) && PICTURES.contains(name.substring(name.lastIndexOf('.') + 1))) {
                count[0]++;
            }
            return true;
        });
        return count[0];
    }

    @Test
    void aKindIsCountedDrawnAndLeadsToItsFiles() {
        String line = Ui.get(() -> lines().stream().filter(l -> l.startsWith("pictures: ")).findFirst().orElseThrow());
        long count = pictures();
        assertTrue(line.startsWith("pictures: " + count + " files, ") && line.contains(" complete") && line.contains(" damaged"), line + ", own count " + count);
        int row = Ui.get(() -> lines().indexOf(line));
        for (int i = 0; i < row; i++) {
            Ui.key(bars, SWT.ARROW_DOWN, 0);
        }
        Ui.key(bars, SWT.CR, 0);
        Tree files = Ui.get(() -> Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 5).findFirst().orElseThrow());
        Ui.until("the pictures are listed", () -> files.getItemCount() == count);
    }

    @Test
    void damagedFilesAreStripedInTheColourOfTheirSign() {
        ImageData picture = Ui.picture(bars);
        int colour = Ui.get(() -> Tone.AT_RISK.rgb(Ink.dark()));
        long striped = 0;
        for (int y = 0; y < picture.height; y++) {
            for (int x = 0; x < picture.width; x++) {
                var rgb = picture.palette.getRGB(picture.getPixel(x, y));
                striped += (rgb.red << 16 | rgb.green << 8 | rgb.blue) == colour ? 1 : 0;
            }
        }
        assertTrue(striped > 20, "points: " + striped);
    }

    @Test
    void foldersAreEnteredLeftAndShown() {
        choose(1, 1);
        Ui.until("folders are drawn", () -> lines().stream().anyMatch(l -> l.startsWith("2025-01 Harbour in fog/: ")));
        long kinds = Ui.get(() -> sum());
        choose(1, 0);
        Ui.until("kinds are drawn", () -> lines().stream().anyMatch(l -> l.startsWith("pictures: ")));
        assertEquals(kinds, Ui.get(() -> sum()), "the same files, by folder and by kind");
        choose(1, 1);
        Ui.until("folders are drawn", () -> lines().stream().anyMatch(l -> l.startsWith("2025-01 Harbour in fog/: ")));
        String first = Ui.get(() -> lines().get(0));
        Ui.key(bars, SWT.ARROW_RIGHT, 0);
        Ui.until("the folder is drawn", () -> !lines().isEmpty() && !lines().get(0).equals(first));
        Ui.key(bars, SWT.ARROW_LEFT, 0);
        Ui.until("the one above is drawn", () -> !lines().isEmpty() && lines().get(0).equals(first));
        Ui.key(bars, SWT.CR, 0);
        Tree files = Ui.get(() -> Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 5).findFirst().orElseThrow());
        Ui.until("the folder is chosen", () -> Arrays.stream(files.getSelection()).anyMatch(item -> first.startsWith(item.getText(0) + ": ")));
    }

    private long sum() {
        return lines().stream().mapToLong(l -> Long.parseLong(l.replaceAll("^.*: ([0-9\\u2009]+) files?, .*$", "$1").replaceAll("\\D", ""))).sum();
    }
}
