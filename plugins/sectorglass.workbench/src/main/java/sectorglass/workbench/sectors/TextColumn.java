package sectorglass.workbench.sectors;

import java.nio.charset.StandardCharsets;
import java.util.Locale;

import sectorglass.image.SafeText;
import sectorglass.workbench.look.Texts;

/** How bytes are shown as text beside them. One cell per byte; what a cell cannot show is a raised dot. */
public enum TextColumn {
    /** 7-bit characters. */
    ASCII,
    /** ISO 8859-1. */
    LATIN_1,
    /** UTF-8; a character stands in the cell of its first byte. */
    UTF_8,
    /** UTF-16, little endian; a character stands in the cell of its first byte. */
    UTF_16LE;

    /** The form in words, for menus. */
    public String words() {
        return Texts.of("text." + name().toLowerCase(Locale.ROOT));
    }

    /** Stands for a byte that is no visible character. */
    static final char DOT = '\u00B7';
    /** Stands for a byte that belongs to the character before it. */
    static final char MORE = ' ';

    /**
     * The cells of a row.
     *
     * @param bytes bytes from one row on; those after the row complete its last character
     * @param from index of the row's first byte
     * @param count bytes in the row
     * @param read whether each byte was read; a cell of an unread byte is blank
     */
    char[] cells(byte[] bytes, int from, int count, boolean[] read) {
        char[] cells = new char[count];
        int i = 0;
        while (i < count) {
            int at = from + i;
            int taken = 1;
            char shown = DOT;
            if (!read[at]) {
                shown = ' ';
            } else {
                switch (this) {
                    case ASCII -> shown = visible(bytes[at] >= 0 ? bytes[at] : -1);
                    case LATIN_1 -> shown = visible(bytes[at] & 0xFF);
                    case UTF_8 -> {
                        taken = sequence(bytes, at, read);
                        shown = taken == 1 ? visible(bytes[at] >= 0 ? bytes[at] : -1)
                                : single(new String(bytes, at, taken, StandardCharsets.UTF_8));
                    }
                    case UTF_16LE -> {
                        if (at + 1 < bytes.length && read[at + 1]) {
                            taken = 2;
                            shown = visible(bytes[at] & 0xFF | (bytes[at + 1] & 0xFF) << 8);
                        }
                    }
                }
            }
            cells[i] = shown;
            for (int k = 1; k < taken && i + k < count; k++) {
                cells[i + k] = MORE;
            }
            i += taken;
        }
        return cells;
    }

    private static int sequence(byte[] bytes, int at, boolean[] read) {
        int lead = bytes[at] & 0xFF;
        int length = lead >= 0xC2 && lead < 0xE0 ? 2 : lead >= 0xE0 && lead < 0xF0 ? 3 : 1;
        for (int k = 1; k < length; k++) {
            if (at + k >= bytes.length || !read[at + k] || (bytes[at + k] & 0xC0) != 0x80) {
                return 1;
            }
        }
        return length;
    }

    private static char single(String text) {
        return text.length() == 1 ? visible(text.charAt(0)) : DOT;
    }

    private static char visible(int c) {
        if (c < 0x20 || c == 0x7F || c > 0x7F && c < 0xA0) {
            return DOT;
        }
        String safe = SafeText.of(String.valueOf((char) c));
        return safe.length() == 1 && c != 0xFFFD && !mirrored(c) ? (char) c : DOT;
    }

    /** Right-to-left and combining characters would disturb the cells beside them; wide ones would not fit. */
    private static boolean mirrored(int c) {
        byte direction = Character.getDirectionality(c);
        int type = Character.getType(c);
        return direction == Character.DIRECTIONALITY_RIGHT_TO_LEFT || direction == Character.DIRECTIONALITY_RIGHT_TO_LEFT_ARABIC
                || type == Character.NON_SPACING_MARK || type == Character.ENCLOSING_MARK || c >= 0x1100 && c < 0x1200
                || c >= 0x2E80 && c < 0xA4D0 || c >= 0xAC00 && c < 0xD7A4 || c >= 0xF900 && c < 0xFB00 || c >= 0xFE30 && c < 0xFF61;
    }
}
