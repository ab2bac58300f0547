package sectorglass.image;

import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * What the content of a sector is like, regardless of where a pattern begins in it and of the sector's own number: sectors that a program
 * filled in place of what it could not read have one shape. {@code Kind} tells what was found; {@code pattern} is equal for sectors
 * of one filler.
 *
 * @param kind null where the content has no such shape
 * @param pattern the byte, the repeated bytes from their smallest rotation on, or the bytes with a mark for each number
 */
record SectorShape(Filler.Kind kind, String pattern) {
    static final SectorShape NONE = new SectorShape(null, "");
    /** Longest repeated text and longest stamped pattern, in bytes. */
    private static final int LONGEST = 128;
    /** Stands for the sector's number; a private-use character, which ISO 8859-1 text never holds. */
    static final char NUMBER = '\uE000';
    /** Stands for as many of the character before it as fill a long run. */
    static final char RUN = '\uE001';
    private static final int LONG_RUN = 16;

    /** The shape of a sector. */
    static SectorShape of(byte[] bytes, int offset, int length, long lba) {
        SectorShape repeated = repeated(bytes, offset, length);
        if (repeated.kind == Filler.Kind.BYTE) {
            return repeated;
        }
        if (repeated.kind == Filler.Kind.TEXT) {
            String marked = marked(text(bytes, offset, period(bytes, offset, length)), lba, length);
            return marked.indexOf(NUMBER) < 0 ? repeated : new SectorShape(Filler.Kind.STAMPED, smallestRotation(marked));
        }
        String shape = collapse(marked(text(bytes, offset, length), lba, length));
        return shape.indexOf(NUMBER) < 0 || shape.length() > LONGEST ? NONE : new SectorShape(Filler.Kind.STAMPED, shape);
    }

    /** The shape of a sector whose own number does not matter. */
    static SectorShape repeated(byte[] bytes, int offset, int length) {
        int period = period(bytes, offset, length);
        if (period == 1) {
            return new SectorShape(Filler.Kind.BYTE, text(bytes, offset, 1));
        }
        return period > Math.min(LONGEST, length / 2) ? NONE
                : new SectorShape(Filler.Kind.TEXT, smallestRotation(text(bytes, offset, period)));
    }

    private static String text(byte[] bytes, int offset, int length) {
        return new String(bytes, offset, length, StandardCharsets.ISO_8859_1);
    }

    /** The smallest distance after which all bytes repeat; the length where they do not. A border table as in string matching. */
    private static int period(byte[] bytes, int offset, int length) {
        int[] border = new int[length + 1];
        border[0] = -1;
        int k = -1;
        for (int i = 0; i < length; i++) {
            while (k >= 0 && bytes[offset + k] != bytes[offset + i]) {
                k = border[k];
            }
            border[i + 1] = ++k;
        }
        return length - border[length];
    }

    private static String smallestRotation(String period) {
        String best = period;
        for (int i = 1; i < period.length(); i++) {
            String turned = period.substring(i) + period.substring(0, i);
            best = turned.compareTo(best) < 0 ? turned : best;
        }
        return best;
    }

    /** The pattern with its numbers replaced: that of its first byte, then that of the sector. */
    private static String marked(String text, long lba, int sectorSize) {
        return mark(mark(text, lba * sectorSize), lba);
    }

    private static String mark(String text, long number) {
        String marked = number(text, Long.toString(number), false);
        String hex = Long.toHexString(number);
        marked = number(marked, hex, true);
        marked = number(marked, hex.toUpperCase(Locale.ROOT), true);
        if (number > 0xFFFF) {
            for (int width : new int[] {8, 4}) {
                if (width == 8 || number <= 0xFFFFFFFFL) {
                    marked = marked.replace(binary(number, width, true), String.valueOf(NUMBER));
                    marked = marked.replace(binary(number, width, false), String.valueOf(NUMBER));
                }
            }
        }
        return marked;
    }

    /** Replaces a number written in digits, zeros before it included, where no other digit stands beside it. */
    private static String number(String text, String digits, boolean hex) {
        int at = text.indexOf(digits);
        if (at < 0) {
            return text;
        }
        StringBuilder marked = new StringBuilder();
        int done = 0;
        for (; at >= 0; at = text.indexOf(digits, at)) {
            int from = at;
            int to = at + digits.length();
            while (from > done && text.charAt(from - 1) == '0') {
                from--;
            }
            boolean alone = (from == 0 || !continues(text.charAt(from - 1), hex) || hex && (text.charAt(from - 1) | 32) == 'x')
                    && (to == text.length() || !continues(text.charAt(to), hex));
            if (alone) {
                marked.append(text, done, from).append(NUMBER);
                done = to;
            }
            at = to;
        }
        return marked.append(text, done, text.length()).toString();
    }

    /** Whether a character beside digits makes them part of something longer: a number, or a word in which they are letters. */
    private static boolean continues(char c, boolean hex) {
        return c >= '0' && c <= '9' || hex && ((c | 32) >= 'a' && (c | 32) <= 'z');
    }

    private static String binary(long number, int width, boolean little) {
        char[] chars = new char[width];
        for (int i = 0; i < width; i++) {
            chars[little ? i : width - 1 - i] = (char) (number >>> 8 * i & 0xFF);
        }
        return new String(chars);
    }

    /** Long runs of one character as that character and {@link #RUN}. */
    private static String collapse(String text) {
        StringBuilder collapsed = new StringBuilder();
        for (int i = 0; i < text.length(); ) {
            int end = i;
            while (end < text.length() && text.charAt(end) == text.charAt(i)) {
                end++;
            }
            if (end - i >= LONG_RUN) {
                collapsed.append(text.charAt(i)).append(RUN);
            } else {
                collapsed.append(text, i, end);
            }
            i = end;
        }
        return collapsed.toString();
    }
}
