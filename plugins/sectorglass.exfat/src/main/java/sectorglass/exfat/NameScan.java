package sectorglass.exfat;

/**
 * Looks at a name once: whether its characters are legal, and the hash of it in capitals. Source: Microsoft exFAT specification, sections
 * 7.6.4 and 7.7.3.
 */
final class NameScan {

    /** The hash is not known: a capital is not. */
    static final int UNKNOWN = -1;
    /** Less the index of the first character that no name may hold. */
    static final int ILLEGAL = -2;

    private static final boolean[] FORBIDDEN = new boolean[128];

    static {
        java.util.Arrays.fill(FORBIDDEN, 0, 0x20, true);
        "\"*/:<>?\\|".chars().forEach(c -> FORBIDDEN[c] = true);
    }

    private NameScan() {
    }

    /**
     * The hash of a name.
     *
     * @param from index of its first name entry; the others follow
     * @param length its characters, all of them there
     * @return the hash, {@link #UNKNOWN}, or {@link #ILLEGAL} less the index of a character that is forbidden
     */
    static int hash(byte[] bytes, int from, int length, Upcase upcase) {
        char[] capitals = upcase.capitals();
        int known = upcase.known();
        boolean all = true;
        int sum = 0;
        for (int i = 0, entry = from; i < length; entry += Directory.SLOT) {
            int end = Math.min(length, i + EntrySet.NAME_CHARACTERS);
            for (int at = entry + 2; i < end; i++, at += 2) {
                int c = bytes[at] & 0xFF | (bytes[at + 1] & 0xFF) << 8;
                if (c < 128 && FORBIDDEN[c]) {
                    return ILLEGAL - i;
                }
                all &= c < known;
                int up = capitals[c];
                sum = ((sum >>> 1 | sum << 15) + (up & 0xFF)) & 0xFFFF;
                sum = ((sum >>> 1 | sum << 15) + (up >> 8)) & 0xFFFF;
            }
        }
        return all ? sum : UNKNOWN;
    }
}
