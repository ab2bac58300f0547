package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

import org.eclipse.swt.custom.StyleRange;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.graphics.Color;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Link;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;
import org.eclipse.swt.widgets.Tree;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Theme;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.parts.KeysPart;

/** The contrast of what the controls of the window are told to show: text at least 4.5 (WCAG 2.2, 1.4.3), in high contrast 7 (1.4.6). */
class ContrastTest {

    @AfterEach
    void back() {
        Ui.run(() -> Look.set(Theme.LIGHT));
    }

    @Test
    void light() {
        everyTextOfTheWindowCanBeRead(Theme.LIGHT);
    }

    @Test
    void dark() {
        everyTextOfTheWindowCanBeRead(Theme.DARK);
    }

    @Test
    void highContrast() {
        everyTextOfTheWindowCanBeRead(Theme.CONTRAST);
    }

    private static void everyTextOfTheWindowCanBeRead(Theme theme) {
        Ui.open(Demo.Variant.GPT);
        Ui.run(() -> {
            Look.set(theme);
            Ui.part("sectorglass.workbench.converter");
            Ui.part(KeysPart.ID);
            Ui.part("sectorglass.workbench.find");
            Ui.part("sectorglass.workbench.findings");
            Ui.part("sectorglass.workbench.meaning");
        });
        // the toolkit changes its own colours some frames later
        double wanted = theme == Theme.CONTRAST ? 7 : 4.5;
        TreeSet<String> poor = poor(wanted);
        for (long end = System.nanoTime() + 3_000_000_000L; System.nanoTime() < end && (!poor.isEmpty() || System.nanoTime() < end - 2_000_000_000L);) {
            poor = poor(wanted);
        }
        assertEquals(new TreeSet<>(), poor);
    }

    private static TreeSet<String> poor(double wanted) {
        Ui.settle();
        TreeSet<String> poor = new TreeSet<>();
        int[] seen = new int[1];
        Ui.run(() -> {
            for (Control control : Ui.all(Control.class)) {
                if (text(control)) {
                    seen[0]++;
                    judge(control, control.getForeground(), control.getBackground(), wanted, poor);
                }
                if (control instanceof StyledText styled) {
                    for (StyleRange range : styled.getStyleRanges()) {
                        judge(control, range.foreground == null ? styled.getForeground() : range.foreground,
                                range.background == null ? styled.getBackground() : range.background, wanted, poor);
                    }
                }
            }
        });
        assertTrue(seen[0] > 20, "controls with text: " + seen[0]);
        return poor;
    }

    private static boolean text(Control control) {
        return control.isEnabled() && (control instanceof Label label && !label.getText().isEmpty() || control instanceof Link || control instanceof Text
                || control instanceof Button || control instanceof Combo || control instanceof StyledText || control instanceof Table
                || control instanceof Tree);
    }

    private static void judge(Control control, Color text, Color ground, double wanted, TreeSet<String> poor) {
        double contrast = Tone.contrast(rgb(text), rgb(ground));
        if (contrast < wanted) {
            List<String> place = new ArrayList<>();
            for (Control at = control; at != null && place.size() < 3; at = at.getParent()) {
                place.add(at.getClass().getSimpleName());
            }
            poor.add(String.format("%.1f: %06X on %06X in %s", contrast, rgb(text), rgb(ground), String.join(" < ", place)));
        }
    }

    private static int rgb(Color color) {
        return color.getRed() << 16 | color.getGreen() << 8 | color.getBlue();
    }
}
