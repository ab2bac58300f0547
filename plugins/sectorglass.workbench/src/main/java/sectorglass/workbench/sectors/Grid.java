package sectorglass.workbench.sectors;

/**
 * Where things stand in a row, in pixels of the canvas.
 *
 * @param columns bytes per row, 8 to 64
 * @param advance width of a character of the byte font
 * @param labelWidth width of the place label, margins included
 */
record Grid(int columns, double advance, int labelWidth) {
    /** Pixels between the place label and the bytes, and between the bytes and the text. */
    private static final int GAP = 10;

    /** Left edge of the first byte's digits. */
    int bytesX() {
        return labelWidth + GAP;
    }

    /** Left edge of a byte's digits; a fraction lies between its digits. */
    double x(double column) {
        int whole = (int) Math.min(column, columns - 1);
        return bytesX() + characters(whole) * advance + (column - whole) * 2 * advance;
    }

    /** Right edge of the digits of the byte before this column. */
    double endX(double column) {
        int whole = (int) Math.ceil(column) - 1;
        return bytesX() + characters(whole) * advance + (column - whole) * 2 * advance;
    }

    /** Index of a byte's first digit in the text of a row. */
    static int character(int column) {
        return column * 3 + column / 8;
    }

    private static double characters(int column) {
        return character(column);
    }

    /** Number of characters in the text of a row. */
    int rowCharacters() {
        return character(columns - 1) + 2;
    }

    /** Left edge of the text beside the bytes. */
    int textX() {
        return (int) Math.ceil(bytesX() + rowCharacters() * advance) + 2 * GAP;
    }

    /** Right edge of everything. */
    int right() {
        return (int) Math.ceil(textX() + columns * advance) + GAP;
    }

    /** The column at a horizontal position in the bytes or in the text, clamped. */
    int columnAt(int x) {
        if (x >= textX() - GAP) {
            return clamp((int) ((x - textX()) / advance));
        }
        for (int column = columns - 1; column > 0; column--) {
            if (x >= x(column) - advance / 2) {
                return column;
            }
        }
        return 0;
    }

    private int clamp(int column) {
        return Math.max(0, Math.min(columns - 1, column));
    }
}
