package sectorglass.workbench.look;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

import org.eclipse.e4.ui.css.swt.theme.IThemeEngine;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.CTabFolder;
import org.eclipse.swt.custom.CTabItem;
import org.eclipse.swt.graphics.Color;
import org.eclipse.swt.graphics.RGB;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.PlatformUI;

/** Switches between the themes. */
public final class Look {
    /** Milliseconds after which GTK may have drawn its next frames; on a busy machine that takes longer. */
    private static final int[] FRAMES = {400, 800, 1600, 3000};
    private static final String TAB_TEXT = "org.eclipse.ui.workbench.ACTIVE_TAB_TEXT_COLOR";
    private static final String OTHER_LIGHT = "org.eclipse.e4.ui.css.theme.e4_classic";
    private static final int DARK = 128;
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
        Display display = Display.getCurrent();
        boolean lighter = Ink.dark() && theme == Theme.LIGHT;
        engine.setTheme(theme.id(), true);
        follow(display);
        if (lighter && SWT.getPlatform().equals("gtk")) {
            again(engine, display, 0);
        }
    }

    /**
     * GTK changes its own colours with the next frame, but controls keep those of the theme that is left until one of theirs is set: each
     * gets one and gives it back, then the styles are applied once more. Done before that frame it pins the colours that are left, hence the
     * repetitions.
     */
    private static void fresh(Composite composite, Color any) {
        for (Control control : composite.getChildren()) {
            control.setForeground(any);
            control.setForeground(null);
            control.setBackground(any);
            control.setBackground(null);
            if (control instanceof CTabFolder folder) {
                folder.setSelectionForeground((Color) null);
                for (CTabItem item : folder.getItems()) {
                    item.setForeground(null);
                    item.setSelectionForeground(null);
                }
            }
            if (control instanceof Composite inner) {
                fresh(inner, any);
            }
        }
    }

    private static void again(IThemeEngine engine, Display display, int time) {
        if (time < FRAMES.length) {
            display.timerExec(FRAMES[time], () -> {
                if (!Ink.dark()) { // not changed back in the meantime
                    restyle(engine, display);
                    again(engine, display, time + 1);
                }
            });
        }
    }

    private static void restyle(IThemeEngine engine, Display display) {
        RGB titles = PlatformUI.getWorkbench().getThemeManager().getCurrentTheme().getColorRegistry().getRGB(TAB_TEXT);
        if (titles != null && titles.green > DARK && display.getSystemColor(SWT.COLOR_WIDGET_FOREGROUND).getGreen() < DARK) {
            // the light theme took its colours from GTK before GTK had changed, and takes them anew only when it comes after another one
            engine.setTheme(OTHER_LIGHT, false);
            engine.setTheme(Theme.LIGHT.id(), true);
        }
        for (Shell shell : display.getShells()) {
            fresh(shell, display.getSystemColor(SWT.COLOR_GRAY));
            engine.applyStyles(shell, true);
        }
        follow(display);
    }

    private static void follow(Display display) {
        Ink.follow();
        LISTENERS.forEach(Runnable::run);
        for (Shell shell : display.getShells()) {
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
