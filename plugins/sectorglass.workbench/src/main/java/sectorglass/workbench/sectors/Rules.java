package sectorglass.workbench.sectors;

import java.util.OptionalLong;

import org.eclipse.swt.graphics.Font;
import org.eclipse.swt.graphics.GC;

import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Tone;

/** Rules where a sector begins, heavier ones where a cluster does; they step down where that is in the middle of a row. */
final class Rules {
    private final RowLayout layout;
    private final Grid grid;
    private final Font small;

    Rules(RowLayout layout, Font small) {
        this.layout = layout;
        this.grid = layout.grid();
        this.small = small;
    }

    void paint(GC gc, Row row, View view) {
        int size = view.image().sectorSize();
        int column = (int) ((size - row.address() % size) % size);
        if (column >= row.count()) {
            return;
        }
        long begins = row.address() + column;
        OptionalLong cluster = view.clusters().beginning(begins);
        gc.setForeground(Ink.of(cluster.isPresent() ? Tone.BRACKET_NEXT : Tone.RULE));
        gc.setLineWidth(cluster.isPresent() ? 2 : 1);
        int y = row.y() + (cluster.isPresent() ? 1 : 0);
        if (column == 0) {
            gc.drawLine(0, y, grid.right(), y);
        } else {
            step(gc, row, y, (int) (grid.x(column) - grid.advance() / 2), grid.bytesX(), (int) grid.endX(grid.columns()));
            step(gc, row, y, (int) (grid.textX() + column * grid.advance()) - 1, grid.textX(), grid.right());
        }
        gc.setLineWidth(1);
        if (cluster.isPresent()) {
            name(gc, row, Texts.of("rule.cluster", Numbers.grouped(cluster.getAsLong())));
        }
    }

    private void step(GC gc, Row row, int y, int x, int left, int right) {
        int bottom = row.y() + layout.line() + 1;
        gc.drawLine(x, y, right, y);
        gc.drawLine(x, y, x, bottom);
        gc.drawLine(left, bottom, x, bottom);
    }

    /** The cluster's number to the right of the text, where there is room. */
    private void name(GC gc, Row row, String words) {
        Font former = gc.getFont();
        gc.setFont(small);
        if (grid.right() + 6 + gc.textExtent(words).x <= layout.right()) {
            gc.setForeground(Ink.of(Tone.QUIET));
            gc.drawString(words, grid.right() + 6, row.y() + 3, true);
        }
        gc.setFont(former);
    }
}
