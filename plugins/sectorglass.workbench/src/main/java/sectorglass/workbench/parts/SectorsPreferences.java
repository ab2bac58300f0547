package sectorglass.workbench.parts;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.osgi.service.prefs.BackingStoreException;

import sectorglass.workbench.places.Offsets;
import sectorglass.workbench.sectors.Density;
import sectorglass.workbench.sectors.SectorsCanvas;
import sectorglass.workbench.sectors.Shown;
import sectorglass.workbench.sectors.TextColumn;

/** Keeps density, columns, text beside the bytes and offsets from one start to the next. */
public final class SectorsPreferences {
    private static final String BUNDLE = "sectorglass.workbench";

    private SectorsPreferences() {
    }

    static void apply(SectorsCanvas canvas) {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode(BUNDLE);
        canvas.show(new Shown(of(Density.class, node.get("sectors.density", ""), Density.GLOSSED),
                of(TextColumn.class, node.get("sectors.text", ""), TextColumn.ASCII), node.getInt("sectors.columns", 16),
                of(Offsets.class, node.get("sectors.offsets", ""), Offsets.LBA), node.getBoolean("sectors.hex", true)));
    }

    /** Keeps what the canvas shows now. */
    public static void keep(SectorsCanvas canvas) {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode(BUNDLE);
        Shown shown = canvas.shown();
        node.put("sectors.density", shown.density().name());
        node.put("sectors.text", shown.text().name());
        node.putInt("sectors.columns", shown.columns());
        node.put("sectors.offsets", shown.offsets().name());
        node.putBoolean("sectors.hex", shown.hex());
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
