package sectorglass.workbench.sectors;

import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.Font;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Rectangle;

import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.marks.Marks;
import sectorglass.workbench.model.Span;
import sectorglass.workbench.pages.Known;

/** Paints rows. Everything that it measures was measured before. */
final class SectorsPainter {
    private final RowLayout layout;
    private final Grid grid;
    private final Font bytesFont;
    private final Font glossFont;
    private final TextWidths widths;
    private final TextColumn text;
    private final Rules rules;

    SectorsPainter(RowLayout layout, Font bytesFont, Font glossFont, TextWidths widths, TextColumn text) {
        this.layout = layout;
        this.grid = layout.grid();
        this.bytesFont = bytesFont;
        this.glossFont = glossFont;
        this.widths = widths;
        this.text = text;
        this.rules = new Rules(layout, glossFont);
    }

    /**
     * Paints the rows.
     *
     * @param known the bytes from the first row on, some more than the rows hold
     */
    void paint(GC gc, Rectangle area, int header, List<Row> rows, View view, Known known) {
        gc.setBackground(Ink.of(Tone.PAGE));
        gc.fillRectangle(area);
        gc.setBackground(Ink.of(Tone.MARGIN));
        gc.fillRectangle(0, 0, grid.labelWidth(), area.height);
        if (rows.isEmpty()) {
            paintHeader(gc, area, header, view);
            return;
        }
        long start = rows.get(0).address();
        boolean[] read = known.read();
        gc.setFont(bytesFont);
        for (Row row : rows) {
            paintGround(gc, row, view);
        }
        for (Row row : rows) {
            paintBytes(gc, row, view, known, (int) (row.address() - start), read);
        }
        gc.setFont(glossFont);
        for (Row row : rows) {
            paintMarks(gc, row, view);
        }
        gc.setFont(bytesFont);
        if (layout.density() != Density.BYTES) {
            for (Row row : rows) {
                paintBrackets(gc, row);
            }
            if (layout.density() == Density.GLOSSED) {
                gc.setFont(glossFont);
                for (Row row : rows) {
                    paintLabels(gc, row);
                }
                gc.setFont(bytesFont);
            }
        }
        paintHeader(gc, area, header, view);
    }

    private void paintHeader(GC gc, Rectangle area, int header, View view) {
        gc.setFont(bytesFont);
        gc.setBackground(Ink.of(Tone.MARGIN));
        gc.fillRectangle(0, 0, area.width, header);
        gc.setForeground(Ink.of(Tone.QUIET));
        boolean hex = view.labels() == null || view.labels().hex();
        StringBuilder columns = new StringBuilder();
        for (int column = 0; column < grid.columns(); column++) {
            while (columns.length() < Grid.character(column)) {
                columns.append(' ');
            }
            columns.append(hex ? Numbers.hex(column, 2) : String.format("%2d", column));
        }
        gc.drawString(columns.toString(), grid.bytesX(), (header - layout.line()) / 2 + 1, true);
        if (view.labels() != null) {
            right(gc, view.labels().heading(), (header - layout.line()) / 2 + 1);
        }
        gc.setForeground(Ink.of(Tone.RULE));
        gc.drawLine(0, header - 1, area.width, header - 1);
        gc.drawLine(grid.labelWidth(), 0, grid.labelWidth(), area.height);
    }

    private void paintGround(GC gc, Row row, View view) {
        rules.paint(gc, row, view);
        for (Job.Mark mark : view.marks()) {
            paintRange(gc, row, Marks.bytes(mark), Tone.MARKED);
        }
        paintRange(gc, row, view.field(), Tone.FIELD);
        paintRange(gc, row, view.selection(), Tone.SELECTED);
    }

    private void paintRange(GC gc, Row row, ByteRange range, Tone tone) {
        if (range == null || range.length() == 0 || range.start() >= row.end() || range.end() <= row.address()) {
            return;
        }
        int from = (int) Math.max(0, range.start() - row.address());
        int to = (int) Math.min(row.count(), range.end() - row.address());
        gc.setBackground(Ink.of(tone));
        int x = (int) Math.floor(grid.x(from)) - 2;
        gc.fillRectangle(x, row.y() + 1, (int) Math.ceil(grid.endX(to)) + 2 - x, layout.line());
        int tx = (int) Math.floor(grid.textX() + from * grid.advance());
        gc.fillRectangle(tx, row.y() + 1, (int) Math.ceil((to - from) * grid.advance()), layout.line());
    }

    private void paintBytes(GC gc, Row row, View view, Known known, int from, boolean[] read) {
        int y = row.y() + 2;
        byte[] bytes = known.bytes();
        paintPlace(gc, row, view, y);
        if (!known.clean()) {
            paintUnread(gc, row, known, from);
        }
        String plain = RowText.hex(bytes, from, row.count(), read, false);
        String zeros = RowText.hex(bytes, from, row.count(), read, true);
        if (plain != null) {
            gc.setForeground(Ink.of(Tone.INK));
            gc.drawString(plain, grid.bytesX(), y, true);
        }
        if (zeros != null) {
            gc.setForeground(Ink.of(Tone.QUIET));
            gc.drawString(zeros, grid.bytesX(), y, true);
        }
        char[] cells = text.cells(bytes, from, row.count(), read);
        paintText(gc, cells, y);
        if (view.caret() >= row.address() && view.caret() < row.end()) {
            paintCaret(gc, row, view, bytes, from, read, cells, y);
        }
    }

    private void paintText(GC gc, char[] cells, int y) {
        char[] letters = cells.clone();
        char[] dots = cells.clone();
        boolean anyLetter = false;
        boolean anyDot = false;
        for (int i = 0; i < cells.length; i++) {
            boolean dot = cells[i] == TextColumn.DOT;
            if (dot) {
                letters[i] = ' ';
                anyDot = true;
            } else {
                dots[i] = ' ';
                anyLetter |= cells[i] != ' ';
            }
        }
        if (anyLetter) {
            gc.setForeground(Ink.of(Tone.INK));
            gc.drawString(new String(letters), grid.textX(), y, true);
        }
        if (anyDot) {
            gc.setForeground(Ink.of(Tone.QUIET));
            gc.drawString(new String(dots), grid.textX(), y, true);
        }
    }

    private void paintPlace(GC gc, Row row, View view, int y) {
        gc.setForeground(Ink.of(row.address() % view.image().sectorSize() == 0 ? Tone.INK : Tone.QUIET));
        long structure = row.spans().isEmpty() ? -1 : row.spans().get(0).structure().range().start();
        right(gc, view.labels().of(row.address(), structure), y);
    }

    private void right(GC gc, String place, int y) {
        gc.drawString(place, (int) Math.round(grid.labelWidth() - 8 - place.length() * grid.advance()), y, true);
    }

    /** A marked range: a line at its left edge where it begins and under it, its name to the right of the text where there is room. */
    private void paintMarks(GC gc, Row row, View view) {
        for (Job.Mark mark : view.marks()) {
            ByteRange bytes = Marks.bytes(mark);
            if (bytes.start() >= row.end() || bytes.end() <= row.address()) {
                continue;
            }
            int from = (int) Math.max(0, bytes.start() - row.address());
            int to = (int) Math.min(row.count(), bytes.end() - row.address());
            int x = (int) Math.floor(grid.x(from)) - 2;
            int bottom = row.y() + layout.line();
            gc.setForeground(Ink.of(Tone.MARK));
            gc.drawLine(x, bottom, (int) Math.ceil(grid.endX(to)) + 1, bottom);
            if (bytes.start() >= row.address()) {
                gc.setLineWidth(2);
                gc.drawLine(x, row.y() + 1, x, bottom);
                gc.setLineWidth(1);
                String name = widths.fit(gc, SafeText.of(mark.name()), layout.right() - grid.right() - 12);
                gc.drawString(name, grid.right() + 6, row.y() + 2, true);
            }
        }
    }

    private void paintUnread(GC gc, Row row, Known known, int from) {
        int end = from + row.count();
        for (int at = from; at < end;) {
            int column = at - from;
            int run = known.run(at, end);
            ReadState state = known.state(at);
            int x = (int) grid.x(column);
            int width = (int) grid.endX(column + run) - x;
            if (state == null) {
                paintComing(gc, row, x, width);
            } else if (state != ReadState.READ) {
                Hatch.fill(gc, state, x, row.y() + 1, width, layout.line());
                int tx = (int) (grid.textX() + column * grid.advance());
                Hatch.fill(gc, state, tx, row.y() + 1, (int) (run * grid.advance()), layout.line());
                gc.setForeground(Ink.of(Tone.INK));
                gc.setBackground(Ink.of(Tone.PAGE));
                String letter = String.valueOf(RowText.letter(state));
                for (int i = column; i < column + run; i++) {
                    gc.drawString(letter, (int) (grid.x(i) + grid.advance() / 2), row.y() + 2, false);
                }
            }
            at += run;
        }
    }

    /** Bytes that are still being read: a line and a word, nothing that looks like a value. */
    private void paintComing(GC gc, Row row, int x, int width) {
        String word = Texts.of("bytes.coming");
        int middle = row.y() + 1 + layout.line() / 2;
        gc.setForeground(Ink.of(Tone.RULE));
        gc.drawLine(x, middle, x + width, middle);
        if ((word.length() + 2) * grid.advance() <= width) {
            gc.setForeground(Ink.of(Tone.QUIET));
            gc.setBackground(Ink.of(Tone.PAGE));
            gc.drawString(" " + word + " ", (int) (x + 2 * grid.advance()), row.y() + 2, false);
        }
    }

    private void paintCaret(GC gc, Row row, View view, byte[] bytes, int from, boolean[] read, char[] cells, int y) {
        int column = (int) (view.caret() - row.address());
        int x = (int) Math.floor(grid.x(column)) - 1;
        int width = (int) Math.ceil(2 * grid.advance()) + 2;
        int tx = (int) Math.floor(grid.textX() + column * grid.advance());
        int tw = (int) Math.ceil(grid.advance());
        gc.setForeground(Ink.of(Tone.CARET));
        if (view.focus() && read[from + column]) {
            gc.setBackground(Ink.of(Tone.CARET));
            gc.fillRectangle(x, row.y() + 1, width, layout.line());
            gc.setForeground(Ink.of(Tone.ON_CARET));
            gc.drawString(Numbers.hex(bytes[from + column] & 0xFF, 2), (int) Math.round(grid.x(column)), y, true);
            gc.setForeground(Ink.of(Tone.CARET));
        } else {
            gc.drawRectangle(x, row.y() + 1, width - 1, layout.line() - 1);
            gc.drawRectangle(x - 1, row.y(), width + 1, layout.line() + 1);
        }
        gc.drawRectangle(tx - 1, row.y() + 1, tw + 1, layout.line() - 1);
    }

    private void paintBrackets(GC gc, Row row) {
        int y = row.y() + layout.line() + 1;
        boolean glossed = layout.density() == Density.GLOSSED;
        gc.setAntialias(SWT.OFF);
        for (Span span : row.spans()) {
            Tone tone = span.finding() != null ? Tone.WRONG : span.odd() ? Tone.BRACKET : Tone.BRACKET_NEXT;
            gc.setForeground(Ink.of(tone));
            gc.setBackground(Ink.of(tone));
            int before = -1;
            for (Span.Piece piece : span.pieces()) {
                if (piece.from() >= row.end() || piece.to() <= row.address()) {
                    continue;
                }
                int x0 = (int) Math.round(grid.x(Math.max(0, piece.from() - row.address())));
                int x1 = (int) Math.round(grid.endX(Math.min(row.count(), piece.to() - row.address()))) - 1;
                if (before >= 0) {
                    // the digits between belong to a neighbour: the stretches of one field are joined by dots below them
                    gc.setLineStyle(SWT.LINE_DOT);
                    gc.drawLine(before, y + 5, x0, y + 5);
                    gc.setLineStyle(SWT.LINE_SOLID);
                }
                if (glossed) {
                    gc.drawLine(x0, y + 3, x1, y + 3);
                    if (piece.from() >= row.address()) {
                        gc.drawLine(x0, y, x0, y + 3);
                    }
                    if (piece.to() <= row.end()) {
                        gc.drawLine(x1, y, x1, y + 3);
                    }
                } else {
                    gc.fillRectangle(x0, y + 1, Math.max(2, x1 - x0 + 1), span.finding() != null ? 3 : 2);
                }
                before = x1;
            }
        }
    }

    private void paintLabels(GC gc, Row row) {
        int top = row.y() + layout.line() + layout.bracket();
        for (int i = 0; i < row.named().size(); i++) {
            int line = row.placed().line()[i];
            if (line < 0) {
                continue;
            }
            Span span = row.named().get(i);
            int x = layout.labelX(span, row.address());
            int y = top + line * layout.small();
            if (line > 0) {
                gc.setForeground(Ink.of(Tone.BRACKET_NEXT));
                gc.drawLine(x, top - layout.bracket() + 4, x, y + layout.small() / 2);
            }
            int right = x + row.placed().width()[i] - 6;
            int at = x + (line > 0 ? 4 : 0);
            if (span.finding() != null) {
                int size = layout.sign() - 4;
                Sign.of(span.finding()).draw(gc, at, y + (layout.small() - size) / 2, size);
                at += layout.sign();
            }
            at = piece(gc, row.labels().get(i).name(), Tone.NAME, at, y, right);
            at = piece(gc, row.labels().get(i).value(), Tone.INK, at, y, right);
            piece(gc, row.labels().get(i).wrong(), Tone.WRONG, at, y, right);
        }
    }

    private int piece(GC gc, String words, Tone tone, int x, int y, int right) {
        if (words.isEmpty() || x >= right) {
            return x;
        }
        String shown = widths.fit(gc, words, right - x);
        if (shown.isEmpty()) {
            return right;
        }
        gc.setForeground(Ink.of(tone));
        gc.drawString(shown, x, y, true);
        return shown.length() < words.length() ? right : x + widths.of(gc, shown) + 5;
    }
}
