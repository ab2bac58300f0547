package sectorglass.decode.internal.text;

/** Numbers in the trade's form. */
public final class Numbers {
    /** Between groups of three digits. */
    public static final char THIN_SPACE = '\u2009';
    private static final int MOST_HEX = 64;

    private Numbers() {
    }

    /** Decimal digits in groups of three. */
    public static String grouped(long number, boolean unsigned) {
        String plain = unsigned ? Long.toUnsignedString(number) : Long.toString(number);
        boolean negative = plain.startsWith("-");
        String digits = negative ? plain.substring(1) : plain;
        if (digits.length() <= 3) {
            return plain;
        }
        StringBuilder grouped = new StringBuilder(digits.length() + digits.length() / 3 + 1);
        for (int i = 0; i < digits.length(); i++) {
            if (i > 0 && (digits.length() - i) % 3 == 0) {
                grouped.append(THIN_SPACE);
            }
            grouped.append(digits.charAt(i));
        }
        return negative ? "-" + grouped : grouped.toString();
    }

    /** Hexadecimal in full width; {@code bits} below 1: as many digits as needed. */
    public static String hex(long number, int bits) {
        long masked = bits > 0 && bits < 64 ? number & (1L << bits) - 1 : number;
        String digits = Long.toHexString(masked).toUpperCase(java.util.Locale.ROOT);
        int width = bits > 0 ? (bits + 3) / 4 : 0;
        return "0x" + "0".repeat(Math.max(0, width - digits.length())) + digits;
    }

    /** Bytes as hexadecimal pairs; long ones are cut with an ellipsis. */
    public static String hex(byte[] bytes) {
        StringBuilder hex = new StringBuilder(Math.min(bytes.length, MOST_HEX) * 3 + 2);
        for (int i = 0; i < bytes.length && i < MOST_HEX; i++) {
            if (i > 0) {
                hex.append(' ');
            }
            hex.append(Character.toUpperCase(Character.forDigit(bytes[i] >> 4 & 15, 16)));
            hex.append(Character.toUpperCase(Character.forDigit(bytes[i] & 15, 16)));
        }
        return bytes.length > MOST_HEX ? hex.append(" …").toString() : hex.toString();
    }
}
