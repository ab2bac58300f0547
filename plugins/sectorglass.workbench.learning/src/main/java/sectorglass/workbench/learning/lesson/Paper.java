package sectorglass.workbench.learning.lesson;

import org.eclipse.swt.widgets.Control;

import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Tone;

/** One ground for all controls of a step, so that it reads as one page. */
final class Paper {

    private Paper() {
    }

    /** Lays a control on the ground of the bytes, in every theme. */
    static void of(Control control) {
        control.setData("org.eclipse.e4.ui.css.disabled", Boolean.TRUE); // the ground is that of the bytes beside it, not of the style sheet
        Runnable ground = () -> {
            control.setBackground(Ink.of(Tone.PAGE));
            control.setForeground(Ink.of(Tone.INK));
        };
        Look.follow(control, ground);
        ground.run();
    }
}
