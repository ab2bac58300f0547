package sectorglass.workbench.sectors;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Rectangle;

import sectorglass.image.ReadState;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Tone;

/** Marks places that were not read: failed by crossed lines, skipped by stripes, unread by dots. */
public final class Hatch {
    private static final int STEP = 6;

    private Hatch() {
    }

    /** Fills a rectangle with the mark of a state; nothing for {@link ReadState#READ}. */
    public static void fill(GC gc, ReadState state, int x, int y, int width, int height) {
        if (state == ReadState.READ || width <= 0 || height <= 0) {
            return;
        }
        Rectangle former = gc.getClipping();
        gc.setClipping(former.intersection(new Rectangle(x, y, width, height)));
        gc.setAntialias(SWT.ON);
        gc.setLineWidth(1);
        gc.setForeground(Ink.of(state == ReadState.FAILED ? Tone.UNUSABLE : state == ReadState.SKIPPED ? Tone.SKIPPED : Tone.UNREAD));
        if (state == ReadState.UNREAD) {
            for (int dy = y + 2; dy < y + height; dy += STEP) {
                gc.setLineStyle(SWT.LINE_DOT);
                gc.drawLine(x, dy, x + width, dy);
            }
            gc.setLineStyle(SWT.LINE_SOLID);
        } else {
            int first = Math.floorDiv(x - height, STEP) * STEP;
            for (int dx = first; dx < x + width; dx += STEP) {
                gc.drawLine(dx, y + height, dx + height, y);
                if (state == ReadState.FAILED) {
                    gc.drawLine(dx, y, dx + height, y + height);
                }
            }
        }
        gc.setClipping(former);
    }
}
