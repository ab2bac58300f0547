package sectorglass.fat;

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

    /** Bytes as "55 AA"; throws where they were not read. */
    static String bytes(Window window, int at, int length) {
        return SPACED.formatHex(window.bytes(at, length));
    }

    static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        text.chars().forEach(c -> {
            if (c < 0x20 || c >= 0x7F && c < 0xA0) {
                quoted.append(String.format("\\x%02X", c));
            } else {
                quoted.append((char) c);
            }
        });
        return quoted.append('"').toString();
    }

    static boolean zero(Window window, int at, int length) {
        for (byte b : window.bytes(at, length)) {
            if (b != 0) {
                return false;
            }
        }
        return true;
    }
}
