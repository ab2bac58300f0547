package sectorglass.workbench.look;

import java.util.EnumMap;
import java.util.Map;

import org.eclipse.e4.ui.css.swt.theme.ITheme;
import org.eclipse.e4.ui.css.swt.theme.IThemeEngine;
import org.eclipse.swt.graphics.Color;
import org.eclipse.ui.PlatformUI;

/** The tones as colours of the theme that is on. For the thread of the window. */
public final class Ink {
    private static final Map<Tone, Color> LIGHT = new EnumMap<>(Tone.class);
    private static final Map<Tone, Color> DARK = new EnumMap<>(Tone.class);
    private static boolean dark;

    private Ink() {
    }

    /** The colour of a tone now. Not to be disposed. */
    public static Color of(Tone tone) {
        return (dark ? DARK : LIGHT).computeIfAbsent(tone, wanted -> {
            int rgb = wanted.rgb(dark);
            return new Color(rgb >> 16 & 0xFF, rgb >> 8 & 0xFF, rgb & 0xFF);
        });
    }

    /** Whether the dark theme is on. */
    public static boolean dark() {
        return dark;
    }

    /** Sets the theme for painting; for canvases outside a workbench. */
    public static void dark(boolean on) {
        dark = on;
    }

    /** Asks the workbench which theme is on. */
    public static void follow() {
        IThemeEngine engine = engine();
        ITheme active = engine == null ? null : engine.getActiveTheme();
        dark = active != null && active.getId().contains("dark");
    }

    /** The theme engine of the running workbench, or null. */
    public static IThemeEngine engine() {
        return PlatformUI.isWorkbenchRunning() ? PlatformUI.getWorkbench().getService(IThemeEngine.class) : null;
    }
}
