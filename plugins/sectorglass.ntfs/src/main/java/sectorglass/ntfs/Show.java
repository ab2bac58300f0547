package sectorglass.ntfs;

import java.util.HexFormat;

/** Values as texts of findings show them. */
final class Show {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

    private Show() {
    }

    static String name(String name) {
        return sectorglass.image.SafeText.of(name);
    }

    static String hex(byte[] bytes) {
        return HEX.formatHex(bytes);
    }
}
