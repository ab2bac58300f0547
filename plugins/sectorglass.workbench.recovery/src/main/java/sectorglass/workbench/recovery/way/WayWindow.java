package sectorglass.workbench.recovery.way;

import org.eclipse.core.runtime.ILog;
import org.eclipse.ui.IWorkbenchPartSite;
import org.eclipse.ui.IWorkbenchWindow;
import org.eclipse.ui.WorkbenchException;

import sectorglass.recovery.way.Way;

/** Shows a way where there is room for its text beside the sectors. */
public final class WayWindow {
    private static final String LEARN = "sectorglass.workbench.learning.learn";

    private WayWindow() {
    }

    /** Opens the part Way in the perspective for learning, or in the one that is open where that is not installed. */
    public static void show(IWorkbenchPartSite from, Way way) {
        IWorkbenchWindow window = from.getWorkbenchWindow();
        try {
            if (window.getWorkbench().getPerspectiveRegistry().findPerspectiveWithId(LEARN) != null) {
                window.getWorkbench().showPerspective(LEARN, window);
            }
            if (window.getActivePage().showView(WayPart.ID) instanceof WayPart part) {
                part.show(way);
            }
        } catch (WorkbenchException e) {
            ILog.get().error("The way cannot be shown.", e);
        }
    }
}
