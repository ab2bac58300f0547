package sectorglass.workbench.learning.lesson;

import org.eclipse.core.runtime.ILog;
import org.eclipse.ui.IWorkbenchPage;
import org.eclipse.ui.IWorkbenchWindow;
import org.eclipse.ui.PartInitException;
import org.eclipse.ui.PlatformUI;

/** The other parts that a lesson uses. */
final class Parts {
    /** Id of the part Findings. */
    static final String FINDINGS = "sectorglass.workbench.findings";
    /** Id of the part Fields. */
    static final String FIELDS = "sectorglass.workbench.fields";

    private Parts() {
    }

    /** Brings a part of the perspective Learn to the front; it does not take the keyboard. In other perspectives nothing is moved. */
    static void front(String id) {
        IWorkbenchWindow window = PlatformUI.getWorkbench().getActiveWorkbenchWindow();
        IWorkbenchPage page = window == null ? null : window.getActivePage();
        if (page == null || page.getPerspective() == null || !page.getPerspective().getId().equals(LearnPerspective.ID)) {
            return;
        }
        try {
            page.showView(id, null, IWorkbenchPage.VIEW_VISIBLE);
        } catch (PartInitException e) {
            ILog.get().error("The part " + id + " cannot be shown.", e);
        }
    }
}
