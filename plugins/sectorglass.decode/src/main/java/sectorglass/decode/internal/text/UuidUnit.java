package sectorglass.decode.internal.text;

/**
 * Sixteen bytes as an identifier in lower case. {@code guid}: the first three parts are little-endian (UEFI 2.10, appendix A);
 * {@code uuid} and {@code guid-be}: all bytes in their order (RFC 4122, section 4.1.2).
 *
 * @param word the word of the unit
 * @param mixed whether the first three parts are little-endian
 */
record UuidUnit(String word, boolean mixed) implements Unit {
    private static final int[] MIXED = {3, 2, 1, 0, 5, 4, 7, 6, 8, 9, 10, 11, 12, 13, 14, 15};

    @Override
    public String value(Object raw, boolean unsigned) {
        if (!(raw instanceof byte[] bytes) || bytes.length != 16) {
            return null;
        }
        StringBuilder text = new StringBuilder(36);
        for (int i = 0; i < 16; i++) {
            if (i == 4 || i == 6 || i == 8 || i == 10) {
                text.append('-');
            }
            byte octet = bytes[mixed ? MIXED[i] : i];
            text.append(Character.forDigit(octet >> 4 & 15, 16)).append(Character.forDigit(octet & 15, 16));
        }
        return text.toString();
    }

    @Override
    public String meaning(Object raw, boolean unsigned) {
        if (raw instanceof byte[] bytes && bytes.length == 16) {
            for (byte octet : bytes) {
                if (octet != 0) {
                    return null;
                }
            }
            return Texts.of("meaning.nil");
        }
        return null;
    }
}
