package sectorglass.workbench;

import java.nio.file.Path;
import java.util.List;

import org.eclipse.ui.application.IWorkbenchConfigurer;
import org.eclipse.ui.application.IWorkbenchWindowConfigurer;
import org.eclipse.ui.application.WorkbenchAdvisor;
import org.eclipse.ui.application.WorkbenchWindowAdvisor;

/** Tells the platform how the workbench starts. */
public class HouseAdvisor extends WorkbenchAdvisor {
    private final List<Path> images;

    /** @param images to open once the window stands */
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

    /** The images named on the command line. */
    protected final List<Path> images() {
        return images;
    }
}
