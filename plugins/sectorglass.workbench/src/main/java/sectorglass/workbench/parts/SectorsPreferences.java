package sectorglass.workbench.parts;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.osgi.service.prefs.BackingStoreException;

import sectorglass.workbench.sectors.Density;
import sectorglass.workbench.sectors.SectorsCanvas;
import sectorglass.workbench.sectors.TextColumn;

/** Keeps density, columns and text beside the bytes from one start to the next. */
public final class SectorsPreferences {
    private static final String BUNDLE = "sectorglass.workbench";

    private SectorsPreferences() {
    }

    static void apply(SectorsCanvas canvas) {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode(BUNDLE);
        canvas.density(of(Density.class, node.get("sectors.density", ""), Density.GLOSSED));
        canvas.text(of(TextColumn.class, node.get("sectors.text", ""), TextColumn.ASCII));
        canvas.columns(node.getInt("sectors.columns", 16));
    }

    /** Keeps what the canvas shows now. */
    public static void keep(SectorsCanvas canvas) {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode(BUNDLE);
        node.put("sectors.density", canvas.density().name());
        node.put("sectors.text", canvas.text().name());
        node.putInt("sectors.columns", canvas.columns());
        try {
            node.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The settings of the sectors could not be kept.", e);
        }
    }

    private static <E extends Enum<E>> E of(Class<E> type, String name, E otherwise) {
        for (E value : type.getEnumConstants()) {
            if (value.name().equals(name)) {
                return value;
            }
        }
        return otherwise;
    }
}
