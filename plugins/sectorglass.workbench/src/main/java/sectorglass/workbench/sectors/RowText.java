package sectorglass.workbench.sectors;

import sectorglass.image.ReadState;

/** The characters of a row. */
public final class RowText {
    private static final char[] DIGITS = "0123456789ABCDEF".toCharArray();

    private RowText() {
    }

    /**
     * The digits of the bytes of a row that were read.
     *
     * @param zeros true: only the zero bytes, false: only the others; blanks elsewhere
     * @return the text, or null where there is nothing to draw
     */
    static String hex(byte[] bytes, int from, int count, boolean[] read, boolean zeros) {
        char[] text = new char[Grid.character(Math.max(0, count - 1)) + 2];
        java.util.Arrays.fill(text, ' ');
        boolean any = false;
        for (int i = 0; i < count; i++) {
            int value = bytes[from + i];
            if (read[from + i] && value == 0 == zeros) {
                int at = Grid.character(i);
                text[at] = DIGITS[value >> 4 & 15];
                text[at + 1] = DIGITS[value & 15];
                any = true;
            }
        }
        return any ? new String(text) : null;
    }

    /** The letter that stands in place of a byte that was not read. */
    public static char letter(ReadState state) {
        return switch (state) {
            case READ -> ' ';
            case FAILED -> 'F';
            case SKIPPED -> 'S';
            case UNREAD -> 'U';
        };
    }
}
