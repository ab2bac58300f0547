package sectorglass.workbench.sectors;

import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;

/** Lays out or paints the sectors anew as the desk changes. */
record SectorsListener(SectorsCanvas canvas, Desk desk) implements DeskListener {

    @Override
    public void diskChanged() {
        canvas.another();
    }

    @Override
    public void caretMoved() {
        canvas.reveal(desk.caret());
        canvas.refresh();
    }

    @Override
    public void explained() {
        canvas.redraw();
    }

    @Override
    public void findingsChanged() {
        canvas.refresh();
    }

    @Override
    public void glossReady() {
        canvas.refresh();
    }

    @Override
    public void coverChanged() {
        canvas.refresh();
    }

    @Override
    public void examChanged() {
        canvas.refresh();
    }

    @Override
    public void marksChanged() {
        canvas.redraw();
    }

    @Override
    public void bytesReady() {
        canvas.redraw();
    }
}
