package sectorglass.practice.lesson.judge;

import java.util.Locale;
import java.util.OptionalLong;
import java.util.regex.Pattern;

/** Reads a number as people type it: {@code 0x800}, {@code 800h}, {@code 2048}, {@code 2 048}, {@code LBA 2048}. */
final class TypedNumber {
    private static final String BLANKS = "[\\s\\u2009\\u00A0\\u202F]";
    private static final Pattern UNIT = Pattern.compile("^(lba|byte|sector|sektor|cluster)" + BLANKS + "+|" + BLANKS
            + "+(bytes?|sectors?|sektor(en)?|clusters?)$");
    private static final Pattern PLAIN = Pattern.compile("[0-9]+|[0-9]{1,3}([\\s\\u2009\\u00A0\\u202F.,'_][0-9]{3})+");

    private TypedNumber() {
    }

    /**
     * The number; empty where it is none.
     *
     * @param hex whether digits without a mark count as hex
     */
    static OptionalLong of(String typed, boolean hex) {
        String text = UNIT.matcher(typed.strip().toLowerCase(Locale.ROOT)).replaceAll("");
        String digits = text.replaceAll(BLANKS, "");
        try {
            if (digits.matches("0x[0-9a-f]+")) {
                return OptionalLong.of(Long.parseUnsignedLong(digits.substring(2), 16));
            }
            if (digits.matches("[0-9a-f]+h")) {
                return OptionalLong.of(Long.parseUnsignedLong(digits.substring(0, digits.length() - 1), 16));
            }
            if (hex && digits.matches("[0-9a-f]+")) {
                return OptionalLong.of(Long.parseUnsignedLong(digits, 16));
            }
            return PLAIN.matcher(text).matches() ? OptionalLong.of(Long.parseLong(text.replaceAll("[^0-9]", ""))) : OptionalLong.empty();
        } catch (NumberFormatException e) {
            return OptionalLong.empty();
        }
    }
}
