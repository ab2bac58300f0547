package sectorglass.workbench.parts;

import org.eclipse.jface.action.IStatusLineManager;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StackLayout;
import org.eclipse.swt.dnd.DND;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;

import sectorglass.workbench.commands.CopyBytes;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.sectors.SectorsCanvas;

/** The bytes with their gloss, the trail above and everything about the caret below; the welcome page while nothing is open. */
public final class SectorsPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.sectors";

    private Composite stack;
    private StackLayout layout;
    private Control welcome;
    private Composite work;
    private SectorsCanvas canvas;
    private TrailLine trail;
    private Label place;
    private Label more;

    @Override
    void create(Composite parent) {
        stack = new Composite(parent, SWT.NONE);
        layout = new StackLayout();
        stack.setLayout(layout);
        welcome = new Welcome(stack).control();
        work = new Composite(stack, SWT.NONE);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 0;
        grid.marginHeight = 0;
        grid.verticalSpacing = 2;
        work.setLayout(grid);
        trail = new TrailLine(work, desk());
        trail.control().setLayoutData(indented());
        canvas = new SectorsCanvas(work, desk());
        canvas.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        place = new Label(work, SWT.NONE);
        place.setLayoutData(indented());
        more = new Label(work, SWT.NONE);
        more.setLayoutData(indented());
        layout.topControl = welcome;
        ImageDrop.accept(stack, DND.DROP_COPY);
        SectorsPreferences.apply(canvas);
        canvas.onCopy(CopyBytes::hex);
    }

    private static GridData indented() {
        GridData data = new GridData(SWT.FILL, SWT.CENTER, true, false);
        data.horizontalIndent = 8;
        data.widthHint = 100;
        return data;
    }

    /** The canvas, for commands. */
    public SectorsCanvas canvas() {
        return canvas;
    }

    @Override
    public void setFocus() {
        if (layout.topControl == work) {
            canvas.setFocus();
        } else {
            welcome.setFocus();
        }
    }

    @Override
    public void diskChanged() {
        OpenDisk open = desk().open();
        boolean had = layout.topControl == work;
        layout.topControl = open == null ? welcome : work;
        stack.layout();
        setContentDescription("");
        if (open != null && !had && getSite().getPage().getActivePart() == this) {
            canvas.setFocus();
        }
        caretMoved();
    }

    @Override
    public void caretMoved() {
        status();
        trail.refresh();
    }

    @Override
    public void explained() {
        status();
        trail.refresh();
    }

    @Override
    public void coverChanged() {
        status();
    }

    private void status() {
        if (desk().open() == null) {
            return;
        }
        CaretText text = CaretText.of(desk());
        place.setText(text.place());
        more.setText(text.field());
        IStatusLineManager line = getViewSite().getActionBars().getStatusLineManager();
        line.setMessage(text.place());
    }
}
