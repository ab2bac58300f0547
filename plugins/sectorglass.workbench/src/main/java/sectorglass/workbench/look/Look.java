package sectorglass.workbench.look;

import org.eclipse.e4.ui.css.swt.theme.IThemeEngine;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Shell;

/** Switches between the light and the dark theme. */
public final class Look {
    /** Id of the light theme. */
    public static final String LIGHT = "org.eclipse.e4.ui.css.theme.e4_default";
    /** Id of the dark theme. */
    public static final String DARK = "org.eclipse.e4.ui.css.theme.e4_dark";

    private Look() {
    }

    /** Switches to the other theme and keeps it for the next start. */
    public static void toggle() {
        set(!Ink.dark());
    }

    /** Switches to a theme and keeps it for the next start. */
    public static void set(boolean dark) {
        IThemeEngine engine = Ink.engine();
        if (engine == null) {
            return;
        }
        engine.setTheme(dark ? DARK : LIGHT, true);
        Ink.follow();
        for (Shell shell : Display.getCurrent().getShells()) {
            redraw(shell);
        }
    }

    private static void redraw(Composite composite) {
        for (Control control : composite.getChildren()) {
            control.redraw();
            if (control instanceof Composite inner) {
                redraw(inner);
            }
        }
    }
}
