package sectorglass.workbench.opening;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.osgi.service.prefs.BackingStoreException;

import org.eclipse.core.runtime.ILog;

/** The images opened last, newest first; kept in the workspace. */
public final class Recent {
    private static final int KEPT = 9;
    private static final String BUNDLE = "sectorglass.workbench";
    private static final String KEY = "recent.";

    private Recent() {
    }

    /** The paths. */
    public static List<Path> images() {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode(BUNDLE);
        List<Path> found = new ArrayList<>();
        for (int i = 0; i < KEPT; i++) {
            String path = node.get(KEY + i, "");
            if (!path.isEmpty()) {
                found.add(Path.of(path));
            }
        }
        return found;
    }

    /** Puts a path first. */
    public static void add(Path path) {
        List<Path> now = images();
        Path absolute = path.toAbsolutePath().normalize();
        now.remove(absolute);
        now.add(0, absolute);
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode(BUNDLE);
        for (int i = 0; i < KEPT; i++) {
            if (i < now.size()) {
                node.put(KEY + i, now.get(i).toString());
            } else {
                node.remove(KEY + i);
            }
        }
        try {
            node.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The list of recent images could not be kept.", e);
        }
    }
}
