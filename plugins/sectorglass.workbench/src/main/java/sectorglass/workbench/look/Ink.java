package sectorglass.workbench.look;

import java.util.EnumMap;
import java.util.Map;

import org.eclipse.e4.ui.css.swt.theme.ITheme;
import org.eclipse.e4.ui.css.swt.theme.IThemeEngine;
import org.eclipse.swt.graphics.Color;
import org.eclipse.ui.PlatformUI;

/** The tones as colours of the theme that is on. For the thread of the window. */
public final class Ink {
    private static final Map<Theme, Map<Tone, Color>> COLOURS = new EnumMap<>(Theme.class);
    private static Theme theme = Theme.LIGHT;

    private Ink() {
    }

    /** The colour of a tone now. Not to be disposed. */
    public static Color of(Tone tone) {
        return COLOURS.computeIfAbsent(theme, any -> new EnumMap<>(Tone.class)).computeIfAbsent(tone, wanted -> {
            int rgb = wanted.rgb(theme);
            return new Color(rgb >> 16 & 0xFF, rgb >> 8 & 0xFF, rgb & 0xFF);
        });
    }

    /** The theme that is on. */
    public static Theme theme() {
        return theme;
    }

    /** Whether the ground is dark. */
    public static boolean dark() {
        return theme != Theme.LIGHT;
    }

    /** Sets the theme for painting; for canvases outside a workbench. */
    public static void dark(boolean on) {
        theme = on ? Theme.DARK : Theme.LIGHT;
    }

    /** Asks the workbench which theme is on. */
    public static void follow() {
        IThemeEngine engine = engine();
        ITheme active = engine == null ? null : engine.getActiveTheme();
        theme = active == null ? Theme.LIGHT : Theme.of(active.getId());
    }

    /** The theme engine of the running workbench, or null. */
    public static IThemeEngine engine() {
        return PlatformUI.isWorkbenchRunning() ? PlatformUI.getWorkbench().getService(IThemeEngine.class) : null;
    }
}
