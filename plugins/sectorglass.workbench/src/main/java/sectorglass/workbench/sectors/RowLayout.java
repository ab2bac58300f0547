package sectorglass.workbench.sectors;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToIntFunction;

import sectorglass.workbench.model.Span;

/**
 * Lays out the rows that are seen.
 *
 * @param grid where columns stand
 * @param density how much gloss there is
 * @param line height of a line of bytes
 * @param bracket height of the brackets
 * @param small height of a line of gloss
 * @param sign width of a finding's sign with its gap
 * @param right right edge that labels may reach
 */
record RowLayout(Grid grid, Density density, int line, int bracket, int small, int sign, int right) {
    /** Lines of gloss a row may have. */
    static final int MAX_LINES = 6;
    private static final int LEAST = 24;

    /** Tallest row there may be. */
    int tallest() {
        return switch (density) {
            case BYTES -> line;
            case MARKED -> line + bracket;
            case GLOSSED -> line + bracket + MAX_LINES * small + small / 3;
        };
    }

    /**
     * One row.
     *
     * @param spans fields of the whole view, by address
     * @param first whether it is the first row seen: fields that began above are named again
     * @param label what stands under a field's bracket
     * @param width of a label's text in the gloss font
     */
    Row row(long address, int count, int y, List<Span> spans, boolean first, Function<Span, Label> label, ToIntFunction<Label> width) {
        if (density == Density.BYTES) {
            return new Row(address, count, y, line, List.of(), List.of(), List.of(), null);
        }
        List<Span> here = new ArrayList<>();
        for (Span span : spans) {
            if (span.start() < address + count && span.end() > address) {
                here.add(span);
            }
        }
        if (density == Density.MARKED) {
            return new Row(address, count, y, line + bracket, here, List.of(), List.of(), null);
        }
        List<Span> named = new ArrayList<>();
        List<Label> labels = new ArrayList<>();
        for (Span span : here) {
            if (span.start() >= address || first) {
                named.add(span);
                labels.add(label.apply(span));
            }
        }
        int[] x = new int[named.size()];
        int[] wanted = new int[named.size()];
        for (int i = 0; i < x.length; i++) {
            x[i] = labelX(named.get(i), address);
            wanted[i] = width.applyAsInt(labels.get(i)) + (signed(named.get(i)) ? sign : 0) + 10;
        }
        LabelLines.Placed placed = LabelLines.place(x, wanted, Math.max(grid.right(), right), MAX_LINES, LEAST);
        int height = line + (here.isEmpty() ? 0 : bracket) + placed.lines() * small + (placed.lines() > 0 ? small / 3 : 0);
        return new Row(address, count, y, height, here, named, labels, placed);
    }

    static boolean signed(Span span) {
        return span.finding() != null;
    }

    int labelX(Span span, long address) {
        return (int) Math.round(grid.x(Math.max(0, span.from() - address)));
    }
}
