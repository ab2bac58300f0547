package sectorglass.workbench.parts;

import org.eclipse.swt.widgets.Composite;

import sectorglass.workbench.strip.StripCanvas;

/** The disk strip. */
public final class StripPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.strip";

    private StripCanvas canvas;

    @Override
    void create(Composite parent) {
        canvas = new StripCanvas(parent, desk());
    }

    @Override
    public void setFocus() {
        canvas.setFocus();
    }
}
