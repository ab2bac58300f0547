package sectorglass.workbench.compare;

import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Rectangle;

import sectorglass.image.ReadState;
import sectorglass.recovery.Differences.Sameness;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.pages.Known;
import sectorglass.workbench.sectors.Hatch;
import sectorglass.workbench.sectors.RowText;

/** Paints rows of both sides. What differs is in another colour, has a line under it, and a sign between the sides. */
final class TwinPainter {
    private final GC gc;
    private final TwinLayout layout;

    TwinPainter(GC gc, TwinLayout layout) {
        this.gc = gc;
        this.layout = layout;
    }

    void ground(Rectangle area, Pair pair) {
        gc.setBackground(Ink.of(Tone.PAGE));
        gc.fillRectangle(area);
        gc.setBackground(Ink.of(Tone.MARGIN));
        gc.fillRectangle(0, 0, area.width, layout.header());
        gc.setForeground(Ink.of(Tone.INK));
        gc.drawString(layout.fit(gc, pair.left().name(), layout.gutter() - 12), 8, 3, true);
        gc.drawString(layout.fit(gc, pair.right().name(), layout.right() - layout.half() - 8), layout.half() + 8, 3, true);
        gc.setForeground(Ink.of(Tone.RULE));
        gc.drawLine(0, layout.header() - 1, area.width, layout.header() - 1);
    }

    void row(int y, long offset, int from, int count, Twin twin, Pair pair, long caret) {
        side(0, y, pair.left(), offset, from, count, twin, twin.left(), caret);
        side(layout.half(), y, pair.right(), offset, from, count, twin, twin.right(), caret);
        boolean differs = twin.any(from, from + count, Sameness.DIFFERENT);
        if (differs || twin.any(from, from + count, Sameness.UNKNOWN)) {
            gc.setForeground(Ink.of(differs ? Tone.WRONG : Tone.QUIET));
            gc.drawString(differs ? "\u2260" : "?", layout.gutter(), y + 1, true);
        }
    }

    private void side(int x0, int y, Side side, long offset, int from, int count, Twin twin, Known known, long caret) {
        long address = side.start() + offset;
        int size = side.image().sectorSize();
        String place = "LBA " + Numbers.grouped(Long.toString(address / size), ' ') + " \u00B7 " + Numbers.hex(address % size, 3);
        gc.setForeground(Ink.of(Tone.QUIET));
        gc.drawString(place, (int) Math.round(x0 + layout.label() - (place.length() + 1) * layout.advance()), y + 1, true);
        for (int i = 0; i < count; i++) {
            Sameness same = twin.at(from + i);
            ReadState state = known.state(from + i);
            int x = x0 + layout.x(i);
            int width = (int) Math.ceil(2 * layout.advance());
            if (state == null) {
                gc.setForeground(Ink.of(Tone.RULE));
                gc.drawLine(x, y + layout.line() / 2, x + width, y + layout.line() / 2);
            } else if (state != ReadState.READ) {
                Hatch.fill(gc, state, x - 1, y + 1, width + 2, layout.line() - 2);
                gc.setForeground(Ink.of(Tone.INK));
                gc.setBackground(Ink.of(Tone.PAGE));
                gc.drawString(String.valueOf(RowText.letter(state)), x + width / 4, y + 1, false);
            } else {
                value(known.bytes()[from + i], same, x, y, width, x0 + layout.textX() + (int) (i * layout.advance()));
            }
            if (offset + i == caret) {
                gc.setForeground(Ink.of(Tone.CARET));
                gc.drawRectangle(x - 2, y, width + 3, layout.line() - 2);
            }
        }
    }

    private void value(byte value, Sameness same, int x, int y, int width, int textX) {
        boolean differs = same == Sameness.DIFFERENT;
        gc.setForeground(Ink.of(differs ? Tone.WRONG : value == 0 ? Tone.QUIET : Tone.INK));
        gc.drawString(Numbers.hex(value & 0xFF, 2), x, y + 1, true);
        if (differs) {
            gc.setBackground(Ink.of(Tone.WRONG));
            gc.fillRectangle(x, y + layout.line() - 4, width, 2);
        }
        if (layout.text() && value >= 0x20 && value < 0x7F) {
            gc.drawString(String.valueOf((char) value), textX, y + 1, true);
        }
    }

    void nothing(Rectangle area) {
        gc.setBackground(Ink.of(Tone.PAGE));
        gc.fillRectangle(area);
        gc.setForeground(Ink.of(Tone.QUIET));
        gc.drawText(Texts.of("compare.empty"), 10, 8, true);
    }
}
