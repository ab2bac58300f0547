package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.stream.Stream;

import org.eclipse.swt.custom.CTabFolder;
import org.eclipse.swt.custom.CTabItem;
import org.eclipse.swt.graphics.Color;
import org.eclipse.swt.graphics.ImageData;
import org.eclipse.swt.graphics.RGB;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Tree;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.sectors.SectorsCanvas;

class ThemeTest {

    @AfterEach
    void light() {
        Ui.run(() -> Look.set(false));
    }

    @Test
    void theBytesFollowTheTheme() {
        Ui.open(Demo.Variant.GPT);
        SectorsCanvas canvas = Ui.canvas();
        for (boolean dark : new boolean[] {true, false}) {
            Ui.run(() -> Look.set(dark));
            Ui.settle();
            ImageData shown = Ui.picture(canvas);
            // nothing is written at the left edge of the lowest row
            RGB rgb = shown.palette.getRGB(shown.getPixel(1, shown.height - 2));
            assertEquals(Tone.MARGIN.rgb(dark), rgb.red << 16 | rgb.green << 8 | rgb.blue);
        }
    }

    /** Where GTK is late with its next frame, as on a busy machine, the colours of the dark theme must not stay. */
    @Test
    void afterDarkEverythingIsLightAgainThoughTheMachineIsBusy() {
        Ui.open(Demo.Variant.GPT);
        Ui.run(() -> Look.set(true));
        Ui.until("the tree is dark", () -> light(Ui.all(Tree.class).get(0).getBackground()) < 128);
        Ui.run(() -> {
            Look.set(false);
            busy();
        });
        Ui.until("trees and tables are light", () -> Stream.concat(Ui.all(Tree.class).stream(), Ui.all(Table.class).stream())
                .allMatch(list -> light(list.getBackground()) > 200));
        Ui.until("titles of tabs are dark", () -> Ui.all(CTabFolder.class).stream().flatMap(folder -> Arrays.stream(folder.getItems())).filter(CTabItem::isShowing)
                .allMatch(item -> light(item.getParent().getSelectionForeground()) < 100 && light(item.getForeground()) < 100
                        && light(item.getSelectionForeground()) < 100));
    }

    private static void busy() {
        try {
            Thread.sleep(1000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static int light(Color colour) {
        return (colour.getRed() + colour.getGreen() + colour.getBlue()) / 3;
    }
}
