package sectorglass.fat;

import sectorglass.disk.CodePage;

/**
 * Names of 11 bytes: 8 and 3, padded with spaces. Source: Microsoft FAT specification, "FAT Directory Structure" and "Name limits
 * and character sets". Bytes 80 to FF depend on a code page that the volume does not name: see {@link CodePage}.
 */
final class ShortName {

    /** Case bits of byte 12: practice of Windows NT and Linux (msdos_fs.h CASE_LOWER_BASE, CASE_LOWER_EXT). */
    static final int LOWER_BASE = 0x08;
    static final int LOWER_EXTENSION = 0x10;

    private ShortName() {
    }

    /** The name with a dot, case bits applied. */
    static String text(byte[] slots, int at, int caseBits) {
        String base = part(slots, at, 8, (caseBits & LOWER_BASE) != 0);
        String extension = part(slots, at + 8, 3, (caseBits & LOWER_EXTENSION) != 0);
        return extension.isEmpty() ? base : base + "." + extension;
    }

    private static String part(byte[] slots, int at, int length, boolean lower) {
        int end = length;
        while (end > 0 && slots[at + end - 1] == ' ') {
            end--;
        }
        byte[] copy = new byte[end];
        System.arraycopy(slots, at, copy, 0, end);
        if (end > 0 && length == 8 && copy[0] == 5) {
            copy[0] = (byte) 0xE5;
        }
        String text = new String(copy, CodePage.current());
        return lower ? text.toLowerCase(java.util.Locale.ROOT) : text;
    }

    /** A label of 11 bytes as text, or null where it is all padding. */
    static String label(byte[] bytes) {
        byte[] copy = bytes.clone();
        if (copy[0] == 5) {
            copy[0] = (byte) 0xE5;
        }
        int end = 11;
        while (end > 0 && (copy[end - 1] == ' ' || copy[end - 1] == 0)) {
            end--;
        }
        return end == 0 ? null : new String(copy, 0, end, CodePage.current());
    }

    /** Whether the name of 11 bytes holds some that depend on the code page. */
    static boolean needsCodePage(byte[] slots, int at) {
        for (int i = 0; i < 11; i++) {
            if (slots[at + i] < 0 || i == 0 && slots[at] == 5) {
                return true;
            }
        }
        return false;
    }

    /** The checksum that long-name slots carry of the 8.3 name: rotate right, add, for each of the 11 bytes as stored. */
    static int checksum(byte[] slots, int at) {
        int sum = 0;
        for (int i = 0; i < 11; i++) {
            sum = ((sum >>> 1 | sum << 7) + slots[at + i]) & 0xFF;
        }
        return sum;
    }

    /** Offset of the first byte that a short name may not hold, or -1. */
    static int illegal(byte[] slots, int at) {
        for (int i = 0; i < 11; i++) {
            int c = slots[at + i] & 0xFF;
            boolean first = i == 0;
            if (c < 0x20 && !(first && c == 5) || first && c == 0x20 || c < 0x80 && "\"*+,./:;<=>?[\\]|".indexOf(c) >= 0
                    || c >= 'a' && c <= 'z') {
                return i;
            }
        }
        return -1;
    }
}
