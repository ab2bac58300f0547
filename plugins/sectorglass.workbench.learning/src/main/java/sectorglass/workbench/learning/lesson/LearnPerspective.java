package sectorglass.workbench.learning.lesson;

import org.eclipse.ui.IFolderLayout;
import org.eclipse.ui.IPageLayout;
import org.eclipse.ui.IPerspectiveFactory;

/** The perspective in which one learns: the lesson left, the disk strip and the sectors right, fields, findings and meaning below them. */
public final class LearnPerspective implements IPerspectiveFactory {
    /** Its id. */
    public static final String ID = "sectorglass.workbench.learning.learn";

    @Override
    public void createInitialLayout(IPageLayout layout) {
        layout.setEditorAreaVisible(false);
        IFolderLayout left = layout.createFolder("lesson", IPageLayout.LEFT, 0.36f, IPageLayout.ID_EDITOR_AREA);
        left.addView(LessonsPart.ID);
        left.addPlaceholder("sectorglass.workbench.recovery.way");
        left.addPlaceholder("sectorglass.workbench.keys");
        layout.addStandaloneView("sectorglass.workbench.strip", false, IPageLayout.TOP, 0.12f, IPageLayout.ID_EDITOR_AREA);
        IFolderLayout below = layout.createFolder("below", IPageLayout.BOTTOM, 0.62f, IPageLayout.ID_EDITOR_AREA);
        below.addView(Parts.FIELDS);
        below.addView(Parts.FINDINGS);
        below.addView("sectorglass.workbench.meaning");
        below.addPlaceholder("sectorglass.workbench.converter");
        IFolderLayout middle = layout.createFolder("middle", IPageLayout.TOP, 0.5f, IPageLayout.ID_EDITOR_AREA);
        middle.addView("sectorglass.workbench.sectors");
        layout.addShowViewShortcut(LessonsPart.ID);
        layout.getViewLayout("sectorglass.workbench.sectors").setCloseable(false);
    }
}
