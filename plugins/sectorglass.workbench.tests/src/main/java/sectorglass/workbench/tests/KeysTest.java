package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Text;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.make.Demo;
import sectorglass.workbench.help.HelpTopics;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.parts.KeysPart;
import sectorglass.workbench.sectors.Density;
import sectorglass.workbench.sectors.SectorsCanvas;

class KeysTest {
    private SectorsCanvas canvas;

    @BeforeEach
    void open() {
        if (Ui.desk().open() == null || !Ui.desk().open().image().name().equals("demo-gpt.img")) {
            Ui.open(Demo.Variant.GPT);
        }
        canvas = Ui.canvas();
        Ui.run(() -> Ui.desk().goTo(0, ""));
        Ui.explained();
    }

    @Test
    void arrowsAndPagesMoveTheCaretAndEndsAreClamped() {
        Ui.key(canvas, SWT.ARROW_LEFT, 0);
        assertEquals(0, Ui.desk().caret());
        Ui.key(canvas, SWT.ARROW_RIGHT, 0);
        Ui.key(canvas, SWT.ARROW_DOWN, 0);
        assertEquals(17, Ui.desk().caret());
        Ui.key(canvas, SWT.END, 0);
        assertEquals(31, Ui.desk().caret());
        Ui.key(canvas, SWT.PAGE_DOWN, SWT.MOD3);
        assertEquals(512, Ui.desk().caret());
        Ui.key(canvas, SWT.END, SWT.MOD1);
        assertEquals(Ui.desk().open().image().bytes() - 1, Ui.desk().caret());
        assertTrue(Ui.get(() -> canvas.cell(Ui.desk().caret())) != null, "the last byte is in view");
    }

    @Test
    void shiftSelectsAndEscapeGivesUp() {
        Ui.key(canvas, SWT.ARROW_RIGHT, SWT.MOD2);
        Ui.key(canvas, SWT.ARROW_RIGHT, SWT.MOD2);
        assertEquals(new ByteRange(0, 3), Ui.desk().selection());
        Ui.key(canvas, SWT.ESC, 0);
        assertNull(Ui.desk().selection());
    }

    @Test
    void goToTakesAHexLba() {
        Ui.run(() -> {
            Display display = Display.getCurrent();
            display.timerExec(50, new Runnable() {
                @Override
                public void run() {
                    for (Shell shell : display.getShells()) {
                        if (shell.getText().equals(Texts.of("goto.lba.title"))) {
                            Ui.all(shell, Text.class).get(0).setText("0x400");
                            Ui.all(shell, Button.class).stream().filter(button -> shell.getDefaultButton() == button).findFirst().orElseThrow()
                                    .notifyListeners(SWT.Selection, new Event());
                            return;
                        }
                    }
                    display.timerExec(50, this);
                }
            });
        });
        Ui.command("sectorglass.workbench.lba");
        Ui.explained();
        assertEquals(0x400 * 512L, Ui.desk().caret());
    }

    @Test
    void theDensityCycles() {
        Density before = Ui.get(() -> canvas.shown().density());
        Ui.command("sectorglass.workbench.density");
        assertEquals(before.next(), Ui.get(() -> canvas.shown().density()));
        Ui.command("sectorglass.workbench.density");
        Ui.command("sectorglass.workbench.density");
        assertEquals(before, Ui.get(() -> canvas.shown().density()));
    }

    @Test
    void theHelpNamesTheKeys() {
        Ui.command("sectorglass.workbench.help");
        Ui.run(() -> ((KeysPart) Ui.part(KeysPart.ID)).show(HelpTopics.CARD));
        assertTrue(Ui.get(() -> Ui.all(StyledText.class).stream().anyMatch(text -> text.getText().contains("Ctrl+G"))));
        Ui.run(() -> Ui.part("sectorglass.workbench.meaning"));
    }
}
