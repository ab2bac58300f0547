package sectorglass.workbench;

import org.eclipse.swt.graphics.Point;
import org.eclipse.ui.application.ActionBarAdvisor;
import org.eclipse.ui.application.IActionBarConfigurer;
import org.eclipse.ui.application.IWorkbenchWindowConfigurer;
import org.eclipse.ui.application.WorkbenchWindowAdvisor;

/** The frame of the window. */
final class WindowAdvisor extends WorkbenchWindowAdvisor {

    WindowAdvisor(IWorkbenchWindowConfigurer configurer) {
        super(configurer);
    }

    @Override
    public ActionBarAdvisor createActionBarAdvisor(IActionBarConfigurer configurer) {
        return new ActionBarAdvisor(configurer);
    }

    @Override
    public void preWindowOpen() {
        IWorkbenchWindowConfigurer window = getWindowConfigurer();
        window.setInitialSize(new Point(1360, 740));
        window.setShowCoolBar(false);
        window.setShowStatusLine(true);
        window.setShowProgressIndicator(true);
        window.setShowPerspectiveBar(false);
        window.setTitle("Sectorglass");
    }
}
