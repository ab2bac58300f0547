package sectorglass.workbench.parts;

import org.eclipse.core.commands.common.CommandException;
import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.commands.ICommandService;
import org.eclipse.ui.handlers.IHandlerService;
import org.osgi.service.prefs.BackingStoreException;

/** Whether the cautions were read: they stand first on the page of the first minute until then, and one click away afterwards. */
final class Cautions {
    private static final String KEY = "cautions.read";

    private Cautions() {
    }

    static boolean read() {
        return InstanceScope.INSTANCE.getNode("sectorglass.workbench").getBoolean(KEY, false);
    }

    static void keepRead() {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode("sectorglass.workbench");
        node.putBoolean(KEY, true);
        try {
            node.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("It could not be kept that the cautions were read.", e);
        }
    }

    /** Opens the lessons; where they are not installed, the chapter on sector 0. */
    static void learn() {
        ICommandService commands = PlatformUI.getWorkbench().getService(ICommandService.class);
        String lessons = "sectorglass.workbench.learning.perspective";
        command(commands.getCommand(lessons).isDefined() ? lessons : "sectorglass.workbench.learn");
    }

    /** Runs a command of the workbench, as its menu does. */
    static void command(String id) {
        try {
            PlatformUI.getWorkbench().getService(IHandlerService.class).executeCommand(id, null);
        } catch (CommandException e) {
            ILog.get().error("The command " + id + " cannot be run.", e);
        }
    }
}
