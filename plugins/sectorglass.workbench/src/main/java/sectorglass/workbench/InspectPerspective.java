package sectorglass.workbench;

import org.eclipse.ui.IPageLayout;
import org.eclipse.ui.IPerspectiveFactory;

/** The perspective in which a disk is read. */
public final class InspectPerspective implements IPerspectiveFactory {
    /** Its id. */
    public static final String ID = "sectorglass.workbench.inspect";

    @Override
    public void createInitialLayout(IPageLayout layout) {
        layout.setEditorAreaVisible(false);
    }
}
