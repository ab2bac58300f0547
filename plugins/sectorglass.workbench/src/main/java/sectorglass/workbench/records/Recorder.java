package sectorglass.workbench.records;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.osgi.service.prefs.BackingStoreException;

/** Who records: the name that was given last, at first that of the machine's user. */
public final class Recorder {
    private static final IEclipsePreferences NODE = InstanceScope.INSTANCE.getNode("sectorglass.workbench");
    private static final String KEY = "records.who";

    private Recorder() {
    }

    /** The name. */
    public static String name() {
        return NODE.get(KEY, System.getProperty("user.name", ""));
    }

    /** Keeps a name for the next time. */
    public static void keep(String name) {
        NODE.put(KEY, name);
        try {
            NODE.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The name of who records could not be kept.", e);
        }
    }
}
