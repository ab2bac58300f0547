package sectorglass.exfat;

import java.util.HexFormat;

import sectorglass.image.Window;

/** Values as findings show them. */
final class Text {

    private static final HexFormat SPACED = HexFormat.ofDelimiter(" ").withUpperCase();

    private Text() {
    }

    static String hex(long value, int digits) {
        return String.format("0x%0" + digits + "X", value);
    }

    static String sum(int value) {
        return String.format("0x%08X", value);
    }

    /** Bytes as "55 AA"; throws where they were not read. */
    static String bytes(Window window, int at, int length) {
        return SPACED.formatHex(window.bytes(at, length));
    }

    /** Offset of the first byte that is not zero, or -1. */
    static int nonZero(Window window, int at, int length) {
        byte[] bytes = window.bytes(at, length);
        for (int i = 0; i < length; i++) {
            if (bytes[i] != 0) {
                return at + i;
            }
        }
        return -1;
    }
}
