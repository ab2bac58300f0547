package sectorglass.workbench.look;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

import org.eclipse.e4.ui.css.swt.theme.IThemeEngine;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Shell;

/** Switches between the themes. */
public final class Look {
    private static final List<Runnable> LISTENERS = new CopyOnWriteArrayList<>();

    private Look() {
    }

    /** Runs something after each change of the theme as long as the control lives: colours of single words do not change by themselves. */
    public static void follow(Control control, Runnable change) {
        LISTENERS.add(change);
        control.addListener(SWT.Dispose, event -> LISTENERS.remove(change));
    }

    /** Switches from light to dark, from anything else to light, and keeps it for the next start. */
    public static void toggle() {
        set(!Ink.dark());
    }

    /** Switches to the light or the dark theme and keeps it for the next start. */
    public static void set(boolean dark) {
        set(dark ? Theme.DARK : Theme.LIGHT);
    }

    /** Switches to a theme and keeps it for the next start. */
    public static void set(Theme theme) {
        IThemeEngine engine = Ink.engine();
        if (engine == null) {
            return;
        }
        engine.setTheme(theme.id(), true);
        Ink.follow();
        LISTENERS.forEach(Runnable::run);
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
