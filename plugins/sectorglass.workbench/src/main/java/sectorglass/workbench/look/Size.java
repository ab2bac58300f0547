package sectorglass.workbench.look;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.Font;
import org.eclipse.swt.graphics.FontData;
import org.eclipse.swt.widgets.Control;
import org.osgi.service.prefs.BackingStoreException;

/** The size of letters in the parts that a class looks at: the usual one, or large for a projector. Kept from one start to the next. */
public final class Size {
    private static final float FACTOR = 1.6f;
    private static final String KEY = "size.projector";
    private static final List<Runnable> LISTENERS = new CopyOnWriteArrayList<>();
    private static Boolean large;

    private Size() {
    }

    /** Whether letters are large. */
    public static boolean large() {
        if (large == null) {
            large = node().getBoolean(KEY, false);
        }
        return large;
    }

    /** Makes them large, or gives them back their usual size. */
    public static void large(boolean wanted) {
        if (wanted == large()) {
            return;
        }
        large = wanted;
        IEclipsePreferences node = node();
        node.putBoolean(KEY, wanted);
        try {
            node.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The size of letters could not be kept.", e);
        }
        LISTENERS.forEach(Runnable::run);
    }

    /** Runs something after each change of the size as long as the control lives. */
    public static void follow(Control control, Runnable change) {
        LISTENERS.add(change);
        control.addListener(SWT.Dispose, event -> LISTENERS.remove(change));
    }

    /** The font of bytes. Not to be disposed. */
    public static Font bytes() {
        return large() ? scaled(JFaceResources.TEXT_FONT, FACTOR) : JFaceResources.getTextFont();
    }

    /** The font of all other text, or null for that of the platform. Not to be disposed. */
    public static Font words() {
        return large() ? scaled(JFaceResources.DEFAULT_FONT, FACTOR) : null;
    }

    /** A font of text that is to be read at length: somewhat larger than the platform's. Not to be disposed. */
    public static Font reading() {
        return scaled(JFaceResources.DEFAULT_FONT, large() ? 1.25f * FACTOR : 1.25f);
    }

    /** The font of bytes within such a text. Not to be disposed. */
    public static Font readingBytes() {
        return scaled(JFaceResources.TEXT_FONT, large() ? 1.2f * FACTOR : 1.2f);
    }

    /** A length in the usual size, as it is now. */
    public static int scaled(int pixels) {
        return large() ? Math.round(pixels * FACTOR) : pixels;
    }

    /** A length as it was before the last change, as it is now. */
    public static int changed(int pixels) {
        return Math.round(large() ? pixels * FACTOR : pixels / FACTOR);
    }

    private static Font scaled(String name, float factor) {
        FontData[] data = JFaceResources.getFontRegistry().getFontData(name);
        FontData[] changed = new FontData[data.length];
        for (int i = 0; i < data.length; i++) {
            changed[i] = new FontData(data[i].getName(), Math.round(data[i].getHeight() * factor), data[i].getStyle());
        }
        String key = name + " x " + factor;
        JFaceResources.getFontRegistry().put(key, changed);
        return JFaceResources.getFontRegistry().get(key);
    }

    private static IEclipsePreferences node() {
        return InstanceScope.INSTANCE.getNode("sectorglass.workbench");
    }
}
