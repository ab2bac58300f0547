package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Event;
import org.junit.jupiter.api.Test;

import sectorglass.workbench.look.Texts;

class WelcomeTest {

    @Test
    void oneClickShowsTheDemoDisk() {
        Ui.run(() -> Ui.desk().show(null, null));
        Ui.run(() -> Ui.all(Button.class).stream().filter(button -> button.getText().equals(Texts.of("welcome.demo"))).findFirst().orElseThrow()
                .notifyListeners(SWT.Selection, new Event()));
        Ui.until("the demo disk is open", () -> Ui.desk().open() != null && Ui.desk().open().findings() != null);
        assertEquals("demo-gpt.img", Ui.desk().open().image().name());
        assertTrue(Ui.get(() -> Ui.window().getText()).startsWith("demo-gpt.img"));
    }
}
