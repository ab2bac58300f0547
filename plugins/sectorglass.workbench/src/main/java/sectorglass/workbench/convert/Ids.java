package sectorglass.workbench.convert;

import java.util.HexFormat;
import java.util.List;
import java.util.Locale;

import sectorglass.workbench.look.Texts;

/**
 * Sixteen bytes as an id: with the first three parts little-endian (UEFI 2.10, appendix A), and with all bytes in their order (RFC 4122,
 * section 4.1.2).
 */
final class Ids {
    private static final int[] MIXED = {3, 2, 1, 0, 5, 4, 7, 6, 8, 9, 10, 11, 12, 13, 14, 15};
    private static final HexFormat SPACED = HexFormat.ofDelimiter(" ").withUpperCase();

    private Ids() {
    }

    /** The forms of a typed id or of sixteen typed bytes; false where the text is neither. */
    static boolean forms(List<Form> into, String typed) {
        String bare = typed.replaceAll("[{}\\s-]", "");
        if (!bare.matches("[0-9A-Fa-f]{32}")) {
            return false;
        }
        byte[] bytes = HexFormat.of().parseHex(bare);
        if (typed.matches("\\{?[0-9A-Fa-f]{8}-.*")) {
            into.add(new Form(Texts.of("convert.id"), text(bytes)));
            into.add(new Form(Texts.of("convert.id.mixed"), SPACED.formatHex(swapped(bytes))));
            into.add(new Form(Texts.of("convert.id.straight"), SPACED.formatHex(bytes)));
            into.add(new Form(Texts.of("convert.id.other"), text(swapped(bytes))));
        } else {
            into.add(new Form(Texts.of("convert.bytes"), SPACED.formatHex(bytes)));
            into.add(new Form(Texts.of("convert.id.if-mixed"), text(swapped(bytes))));
            into.add(new Form(Texts.of("convert.id.if-straight"), text(bytes)));
        }
        return true;
    }

    static byte[] swapped(byte[] bytes) {
        byte[] swapped = new byte[16];
        for (int i = 0; i < 16; i++) {
            swapped[i] = bytes[MIXED[i]];
        }
        return swapped;
    }

    static String text(byte[] bytes) {
        String hex = HexFormat.of().formatHex(bytes).toLowerCase(Locale.ROOT);
        return hex.substring(0, 8) + "-" + hex.substring(8, 12) + "-" + hex.substring(12, 16) + "-" + hex.substring(16, 20) + "-" + hex.substring(20);
    }
}
