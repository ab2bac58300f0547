package sectorglass.workbench;

import java.nio.file.Path;
import java.util.List;

import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.application.IWorkbenchConfigurer;
import org.eclipse.ui.application.IWorkbenchWindowConfigurer;
import org.eclipse.ui.application.WorkbenchAdvisor;
import org.eclipse.ui.application.WorkbenchWindowAdvisor;

import sectorglass.workbench.commands.OpenImages;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.opening.Session;

/** Tells the platform how the workbench starts. */
public class HouseAdvisor extends WorkbenchAdvisor {
    private final List<Path> images;

    /** @param images the first one is opened once the window stands */
    public HouseAdvisor(List<Path> images) {
        this.images = List.copyOf(images);
    }

    @Override
    public void initialize(IWorkbenchConfigurer configurer) {
        configurer.setSaveAndRestore(true);
    }

    @Override
    public WorkbenchWindowAdvisor createWorkbenchWindowAdvisor(IWorkbenchWindowConfigurer configurer) {
        return new WindowAdvisor(configurer);
    }

    @Override
    public String getInitialWindowPerspectiveId() {
        return InspectPerspective.ID;
    }

    @Override
    public boolean preShutdown() {
        Session.keep(Bench.desk());
        return true;
    }

    @Override
    public void postStartup() {
        Ink.follow();
        PartNames.renew(PlatformUI.getWorkbench());
        if (!images.isEmpty()) {
            OpenImages.open(images.get(0));
        } else {
            Session.restore(OpenImages::open);
        }
        if (Boolean.getBoolean("sectorglass.started")) {
            long began = java.lang.management.ManagementFactory.getRuntimeMXBean().getStartTime();
            long busy = java.lang.ProcessHandle.current().info().totalCpuDuration().map(java.time.Duration::toMillis).orElse(-1L);
            System.out.println("window ready after " + (System.currentTimeMillis() - began) + " ms, processor " + busy + " ms");
        }
    }
}
