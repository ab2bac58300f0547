package sectorglass.workbench;

import org.eclipse.swt.graphics.Point;
import org.eclipse.ui.application.ActionBarAdvisor;
import org.eclipse.ui.application.IActionBarConfigurer;
import org.eclipse.ui.application.IWorkbenchWindowConfigurer;
import org.eclipse.ui.application.WorkbenchWindowAdvisor;

import sectorglass.workbench.look.Ink;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;

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
        Ink.follow();
        IWorkbenchWindowConfigurer window = getWindowConfigurer();
        window.setInitialSize(new Point(1360, 740));
        window.setShowCoolBar(false);
        window.setShowStatusLine(false);
        window.setShowProgressIndicator(true);
        window.setShowPerspectiveBar(false);
        window.setTitle("Sectorglass");
        Bench.desk().add(new DeskListener() {
            @Override
            public void diskChanged() {
                OpenDisk open = Bench.desk().open();
                window.setTitle(open == null ? "Sectorglass" : open.image().name() + " \u2013 Sectorglass");
            }
        });
    }
}
