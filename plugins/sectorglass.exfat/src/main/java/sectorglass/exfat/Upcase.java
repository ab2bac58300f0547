package sectorglass.exfat;

/**
 * The up-case table of a volume, or the part of it that the specification fixes. Source: Microsoft exFAT specification, sections 7.2
 * and 7.2.5.
 */
final class Upcase {

    /** Bytes of a table that lists every character and compresses nothing. */
    static final int MOST_BYTES = 0x10000 * 2;
    /** Checksum of the recommended table, section 7.2.5.1. */
    static final int RECOMMENDED = 0xE619D30D;

    private final char[] map = new char[0x10000];
    private final boolean whole;

    private Upcase(boolean whole) {
        this.whole = whole;
        for (int c = 0; c < map.length; c++) {
            map[c] = (char) c;
        }
    }

    /** Only the first 128 characters are known. */
    static Upcase fixedPart() {
        Upcase table = new Upcase(false);
        for (int c = 'a'; c <= 'z'; c++) {
            table.map[c] = (char) (c - 32);
        }
        return table;
    }

    /** The table of these bytes: characters in order, FFFF and a count for a run that maps to itself. */
    static Upcase of(byte[] bytes) {
        Upcase table = new Upcase(true);
        int character = 0;
        for (int i = 0; i + 1 < bytes.length && character < 0x10000; i += 2) {
            int value = bytes[i] & 0xFF | (bytes[i + 1] & 0xFF) << 8;
            if (value == 0xFFFF && i + 3 < bytes.length) {
                character += bytes[i + 2] & 0xFF | (bytes[i + 3] & 0xFF) << 8;
                i += 2;
            } else {
                table.map[character++] = (char) value;
            }
        }
        return table;
    }

    /** Number of characters, from 0 on, whose mapping is known. */
    int known() {
        return whole ? map.length : 128;
    }

    /** The capital of each character; not to be changed. */
    char[] capitals() {
        return map;
    }

    /** First of the 128 fixed characters that is mapped otherwise, or -1. */
    int firstOdd() {
        for (int c = 0; c < 128; c++) {
            if (map[c] != (c >= 'a' && c <= 'z' ? c - 32 : c)) {
                return c;
            }
        }
        return -1;
    }

    /** The checksum of the table: 32 bits, rotate right and add, over all bytes as stored. */
    static int checksum(byte[] bytes) {
        int sum = 0;
        for (byte b : bytes) {
            sum = BootRegion.step(sum, b & 0xFF);
        }
        return sum;
    }
}
