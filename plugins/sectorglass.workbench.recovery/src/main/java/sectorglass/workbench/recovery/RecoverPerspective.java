package sectorglass.workbench.recovery;

import org.eclipse.ui.IFolderLayout;
import org.eclipse.ui.IPageLayout;
import org.eclipse.ui.IPerspectiveFactory;

/** The perspective in which a disk is recovered: strip above, disk left, files, plan and copies in the middle, findings below. */
public final class RecoverPerspective implements IPerspectiveFactory {
    /** Its id. */
    public static final String ID = "sectorglass.workbench.recovery.recover";
    /** Id of the part Files. */
    public static final String FILES = "sectorglass.workbench.recovery.files";
    /** Id of the part Drawing. */
    public static final String DRAWING = "sectorglass.workbench.recovery.drawing";
    /** Id of the part Read plan. */
    public static final String PLAN = "sectorglass.workbench.recovery.plan";
    /** Id of the part Search. */
    public static final String SEARCH = "sectorglass.workbench.recovery.search";
    /** Id of the part Copies. */
    public static final String COPIES = "sectorglass.workbench.recovery.copies";

    /** Id of the part Proposals. */
    public static final String PROPOSALS = "sectorglass.workbench.recovery.proposals";

    @Override
    public void createInitialLayout(IPageLayout layout) {
        layout.setEditorAreaVisible(false);
        layout.addStandaloneView("sectorglass.workbench.strip", false, IPageLayout.TOP, 0.11f, IPageLayout.ID_EDITOR_AREA);
        IFolderLayout bottom = layout.createFolder("bottom", IPageLayout.BOTTOM, 0.73f, IPageLayout.ID_EDITOR_AREA);
        bottom.addView("sectorglass.workbench.findings");
        bottom.addView("sectorglass.workbench.sectors");
        IFolderLayout left = layout.createFolder("left", IPageLayout.LEFT, 0.2f, IPageLayout.ID_EDITOR_AREA);
        left.addView("sectorglass.workbench.disk");
        IFolderLayout middle = layout.createFolder("middle", IPageLayout.LEFT, 0.5f, IPageLayout.ID_EDITOR_AREA);
        middle.addView(FILES);
        middle.addView(DRAWING);
        middle.addView(PLAN);
        middle.addView(SEARCH);
        middle.addView(COPIES);
        middle.addView(PROPOSALS);
        for (String part : new String[] {FILES, DRAWING, PLAN, SEARCH, COPIES, PROPOSALS}) {
            layout.addShowViewShortcut(part);
        }
    }
}
