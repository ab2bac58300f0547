package sectorglass.workbench.compare;

import org.eclipse.swt.graphics.GC;

/**
 * Where things stand in the rows of two sides, in pixels.
 *
 * @param advance width of a character
 * @param line height of a row
 * @param label width of a place
 * @param columns bytes of a side in a row
 * @param text whether characters stand beside the bytes
 */
record TwinLayout(double advance, int line, int label, int columns, boolean text) {
    private static final int GAP = 10;
    private static final int BETWEEN = 28;

    /** As many columns as fit, 16, 8 or 4, with text where there is room. */
    static TwinLayout of(double advance, int line, int labelCharacters, int width) {
        int label = (int) Math.ceil((labelCharacters + 2) * advance);
        for (int columns : new int[] {16, 8}) {
            for (boolean text : new boolean[] {true, false}) {
                TwinLayout layout = new TwinLayout(advance, line, label, columns, text);
                if (layout.right() <= width) {
                    return layout;
                }
            }
        }
        return new TwinLayout(advance, line, label, 4, false);
    }

    /** Left edge of a byte's digits within a side. */
    int x(int column) {
        return label + GAP + (int) Math.round((column * 3 + column / 8) * advance);
    }

    /** Left edge of the characters within a side. */
    int textX() {
        return x(columns - 1) + (int) Math.ceil(3 * advance) + GAP / 2;
    }

    private int side() {
        return text ? textX() + (int) Math.ceil(columns * advance) : x(columns - 1) + (int) Math.ceil(2 * advance);
    }

    /** Left edge of the sign between the sides. */
    int gutter() {
        return side() + BETWEEN / 2 - 2;
    }

    /** Left edge of the other side. */
    int half() {
        return side() + BETWEEN;
    }

    /** Right edge of everything. */
    int right() {
        return half() + side() + GAP;
    }

    /** Height of the line of names. */
    int header() {
        return line + 6;
    }

    /** The column at a horizontal position, in either side; clamped. */
    int columnAt(int x) {
        int within = x >= half() ? x - half() : x;
        for (int column = columns - 1; column > 0; column--) {
            if (within >= x(column) - advance / 2) {
                return column;
            }
        }
        return 0;
    }

    /** As much of the beginning of a text as fits. */
    String fit(GC gc, String words, int width) {
        String shown = words;
        while (shown.length() > 1 && gc.textExtent(shown).x > width) {
            shown = shown.substring(0, shown.length() - 2).stripTrailing() + "\u2026";
        }
        return shown;
    }
}
