package sectorglass.workbench.recovery.drawing;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Point;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Composite;

import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Tone;

/** What the textures of the bars stand for. */
final class Legend extends Canvas {
    private static final int SAMPLE = 26;

    Legend(Composite parent) {
        super(parent, SWT.DOUBLE_BUFFERED | SWT.NO_FOCUS);
        addListener(SWT.Paint, event -> paint(event.gc));
        Look.follow(this, this::redraw);
    }

    private void paint(GC gc) {
        gc.setBackground(Ink.of(Tone.PAGE));
        gc.fillRectangle(getClientArea());
        int x = 4;
        for (Texture texture : Texture.values()) {
            int high = gc.getFontMetrics().getHeight();
            texture.fill(gc, x, 3, SAMPLE, high - 2);
            gc.setForeground(Ink.of(Tone.INK));
            gc.drawText(texture.word(), x + SAMPLE + 5, 2, true);
            x += SAMPLE + gc.textExtent(texture.word()).x + 24;
        }
    }

    @Override
    public Point computeSize(int width, int height, boolean changed) {
        GC gc = new GC(this);
        int wide = 4;
        for (Texture texture : Texture.values()) {
            wide += SAMPLE + gc.textExtent(texture.word()).x + 24;
        }
        int high = gc.getFontMetrics().getHeight() + 4;
        gc.dispose();
        return new Point(width == SWT.DEFAULT ? wide : width, high);
    }
}
