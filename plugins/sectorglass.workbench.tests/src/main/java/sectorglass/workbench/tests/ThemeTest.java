package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.eclipse.swt.graphics.ImageData;
import org.eclipse.swt.graphics.RGB;
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
}
