package sectorglass.workbench;

import org.eclipse.e4.ui.model.application.MApplication;
import org.eclipse.e4.ui.model.application.ui.MUIElement;
import org.eclipse.e4.ui.model.application.ui.basic.MPart;
import org.eclipse.e4.ui.model.application.ui.basic.MWindow;
import org.eclipse.ui.IWorkbench;
import org.eclipse.ui.views.IViewDescriptor;

/** Names of parts in the language of this start. The platform keeps those of the start at which a part came into the window. */
final class PartNames {

    private PartNames() {
    }

    /** Names all parts anew, shown or not. For the thread of the window. */
    static void renew(IWorkbench workbench) {
        MApplication application = workbench.getService(MApplication.class);
        for (MWindow window : application.getChildren()) {
            for (MUIElement element : window.getSharedElements()) {
                IViewDescriptor known = element instanceof MPart ? workbench.getViewRegistry().find(element.getElementId()) : null;
                if (known != null && !known.getLabel().equals(((MPart) element).getLabel())) {
                    ((MPart) element).setLabel(known.getLabel());
                }
            }
        }
    }
}
