package sectorglass.workbench;

import org.eclipse.ui.IFolderLayout;
import org.eclipse.ui.IPageLayout;
import org.eclipse.ui.IPerspectiveFactory;

import sectorglass.workbench.compare.ComparePart;
import sectorglass.workbench.marks.MarksPart;
import sectorglass.workbench.parts.ConverterPart;
import sectorglass.workbench.parts.DiskPart;
import sectorglass.workbench.parts.FieldsPart;
import sectorglass.workbench.parts.FindPart;
import sectorglass.workbench.parts.FindingsPart;
import sectorglass.workbench.parts.KeysPart;
import sectorglass.workbench.parts.MeaningPart;
import sectorglass.workbench.parts.SectorsPart;
import sectorglass.workbench.parts.StripPart;

/** The perspective in which a disk is read: strip above, disk left, sectors in the middle, fields and meaning right, findings below. */
public final class InspectPerspective implements IPerspectiveFactory {
    /** Its id. */
    public static final String ID = "sectorglass.workbench.inspect";

    @Override
    public void createInitialLayout(IPageLayout layout) {
        layout.setEditorAreaVisible(false);
        layout.addStandaloneView(StripPart.ID, false, IPageLayout.TOP, 0.11f, IPageLayout.ID_EDITOR_AREA);
        IFolderLayout bottom = layout.createFolder("bottom", IPageLayout.BOTTOM, 0.73f, IPageLayout.ID_EDITOR_AREA);
        bottom.addView(FindingsPart.ID);
        bottom.addPlaceholder(FindPart.ID);
        bottom.addPlaceholder(MarksPart.ID);
        bottom.addPlaceholder(ComparePart.ID);
        IFolderLayout left = layout.createFolder("left", IPageLayout.LEFT, 0.19f, IPageLayout.ID_EDITOR_AREA);
        left.addView(DiskPart.ID);
        IFolderLayout right = layout.createFolder("right", IPageLayout.RIGHT, 0.675f, IPageLayout.ID_EDITOR_AREA);
        right.addView(FieldsPart.ID);
        IFolderLayout low = layout.createFolder("low", IPageLayout.BOTTOM, 0.5f, "right");
        low.addView(MeaningPart.ID);
        low.addPlaceholder(KeysPart.ID);
        low.addPlaceholder(ConverterPart.ID);
        IFolderLayout middle = layout.createFolder("middle", IPageLayout.LEFT, 0.5f, IPageLayout.ID_EDITOR_AREA);
        middle.addView(SectorsPart.ID);
        for (String part : new String[] {StripPart.ID, DiskPart.ID, SectorsPart.ID, FieldsPart.ID, MeaningPart.ID, FindingsPart.ID, FindPart.ID,
            MarksPart.ID, ComparePart.ID, KeysPart.ID, ConverterPart.ID}) {
            layout.addShowViewShortcut(part);
        }
        layout.getViewLayout(SectorsPart.ID).setCloseable(false);
    }
}
