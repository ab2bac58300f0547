package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.ImageData;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.image.OpenOptions;
import sectorglass.recovery.Job.Mark;
import sectorglass.recovery.JobFile;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.sectors.SectorsCanvas;

class MarkTest {
    private static List<Mark> stored(Path image) {
        try {
            return JobFile.open(JobFile.beside(image)).job().marks();
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private static Table table() {
        return Ui.all(Table.class).stream().filter(t -> t.getColumnCount() == 4 && t.getColumn(0).getText().equals(Texts.of("marks.name")))
                .findFirst().orElseThrow();
    }

    @Test
    void aSelectionIsMarkedNamedKeptAndRestored() throws IOException {
        Path folder = Files.createTempDirectory("sectorglass-marks");
        Path image = Files.write(folder.resolve("disk.img"), new byte[1 << 20]);
        Ui.open(image, OpenOptions.DEFAULT);
        Ui.run(() -> Ui.desk().select(1024, 1031));
        Ui.command("sectorglass.workbench.mark.add");
        assertEquals(1, Ui.get(() -> table().getItemCount()).intValue());
        Ui.run(() -> {
            Text name = Ui.all(Text.class).stream().filter(text -> text.getText().equals(Texts.of("marks.new", 1))).findFirst().orElseThrow();
            name.setText("odd bytes");
            name.notifyListeners(SWT.DefaultSelection, new Event());
        });
        Ui.until("the mark is kept", () -> stored(image).equals(List.of(new Mark(1024, 8, "odd bytes", null))));
        SectorsCanvas canvas = Ui.canvas();
        Ui.run(() -> Ui.desk().goTo(1024 + 64, "test"));
        Ui.explained();
        Ui.run(() -> canvas.reveal(1024));
        Rectangle cell = Ui.get(() -> canvas.cell(1028));
        ImageData picture = Ui.picture(canvas);
        int rgb = Ui.get(() -> Tone.MARKED.rgb(Ink.dark()));
        assertEquals(rgb, rgb(picture, cell.x + cell.width + 3, cell.y + 4), "the bytes are tinted");

        Ui.open(image, OpenOptions.DEFAULT);
        Ui.until("the mark is there again", () -> table().getItemCount() == 1 && table().getItem(0).getText(0).equals("odd bytes"));
        Ui.run(() -> {
            table().setSelection(0);
            table().notifyListeners(SWT.Selection, new Event());
        });
        assertEquals(new ByteRange(1024, 8), Ui.get(() -> Ui.desk().selection()));
        Ui.run(() -> {
            Event delete = new Event();
            delete.keyCode = SWT.DEL;
            table().notifyListeners(SWT.KeyDown, delete);
        });
        Ui.until("it is gone", () -> table().getItemCount() == 0 && stored(image).isEmpty());
        Ui.command("sectorglass.workbench.mark.undo");
        Ui.until("it is back", () -> table().getItemCount() == 1 && stored(image).size() == 1);
        assertTrue(Files.mismatch(image, Files.write(folder.resolve("same.img"), new byte[1 << 20])) < 0, "the image is as it was");
        Ui.run(() -> Ui.desk().show(null, null));
    }

    private static int rgb(ImageData data, int x, int y) {
        var color = data.palette.getRGB(data.getPixel(x, y));
        return color.red << 16 | color.green << 8 | color.blue;
    }
}
