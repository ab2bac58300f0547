package sectorglass.apple;

import sectorglass.image.Window;

/**
 * Keys of the trees. Their order: catalog by parent and name, extents by file, fork and block, attributes by file, name and block. Source:
 * Apple TN1150 by way of hfs_format.h (xnu); the order of attribute keys is from memory of hfs_xattr.c (xnu).
 */
final class HfsKeys {
    private HfsKeys() {
    }

    /** Whether the length and what it holds are legal. */
    static boolean legal(HfsTree.Kind kind, Window w, int key, int end) {
        int length = key + 2 <= end ? w.u16be(key) : 0;
        if (key + 2 + length > end) {
            return false;
        }
        return switch (kind) {
            case EXTENTS -> length == 10 && (w.u8(key + 2) == 0 || w.u8(key + 2) == 0xFF);
            case CATALOG -> length >= 6 && length <= 516 && w.u16be(key + 6) * 2 + 6 <= length && w.u16be(key + 6) <= 255;
            case ATTRIBUTES -> length >= 12 && length <= 266 && w.u16be(key + 12) * 2 + 12 <= length;
        };
    }

    /** Byte of the data: keys fill an even number of bytes. */
    static int data(Window w, int key) {
        int length = w.u16be(key);
        return key + 2 + length + (length & 1);
    }

    /** Byte of a catalog record's data, or -1 where its key is not legal or no type follows. */
    static int record(Window w, int key, int end) {
        return legal(HfsTree.Kind.CATALOG, w, key, end) && data(w, key) + 10 <= end ? data(w, key) : -1;
    }

    /** The bytes of a legal key without its length. */
    static byte[] bytes(Window w, int key) {
        return w.bytes(key + 2, w.u16be(key));
    }

    /**
     * Compares two legal keys.
     *
     * @param binary whether names of the catalog compare unit by unit (HFSX); otherwise capitals and small letters are one, of which only
     *     those of ASCII are told here: the table of Apple has more
     * @return below 0, 0, above 0; null where it depends on capitals that are not told here
     */
    static Integer compare(HfsTree.Kind kind, byte[] a, byte[] b, boolean binary) {
        return switch (kind) {
            case EXTENTS -> numbers(a, b, new int[] {2, 6}, 0);
            case CATALOG -> numbers(a, b, new int[] {0}, -1) != 0 ? (Integer) numbers(a, b, new int[] {0}, -1) : names(a, b, 4, binary);
            case ATTRIBUTES -> {
                int file = numbers(a, b, new int[] {2}, -1);
                Integer name = file != 0 ? (Integer) file : names(a, b, 10, true);
                yield name != 0 ? name : (Integer) numbers(a, b, new int[] {6}, -1);
            }
        };
    }

    private static long u32(byte[] key, int at) {
        return (key[at] & 0xFFL) << 24 | (key[at + 1] & 0xFF) << 16 | (key[at + 2] & 0xFF) << 8 | key[at + 3] & 0xFF;
    }

    /** Compares numbers of four bytes in turn; after the first of them one byte, where its place is not negative. */
    private static int numbers(byte[] a, byte[] b, int[] places, int after) {
        for (int i = 0; i < places.length; i++) {
            int order = Long.compare(u32(a, places[i]), u32(b, places[i]));
            if (order == 0 && i == 0 && after >= 0) {
                order = Integer.compare(a[after] & 0xFF, b[after] & 0xFF);
            }
            if (order != 0) {
                return order;
            }
        }
        return 0;
    }

    private static int unit(byte[] key, int at) {
        return (key[at] & 0xFF) << 8 | key[at + 1] & 0xFF;
    }

    private static Integer names(byte[] a, byte[] b, int at, boolean binary) {
        int left = unit(a, at);
        int right = unit(b, at);
        for (int i = 0; i < Math.min(left, right); i++) {
            int x = unit(a, at + 2 + 2 * i);
            int y = unit(b, at + 2 + 2 * i);
            if (x != y && !binary && (x >= 0x80 || y >= 0x80)) {
                return null;
            }
            int order = binary ? x - y : fold(x) - fold(y);
            if (order != 0) {
                return order;
            }
        }
        return left - right;
    }

    /** A unit of ASCII as the table of Apple has it: zero last, capitals small (TN1150, "Case-Insensitive String Comparison"). */
    private static int fold(int unit) {
        return unit == 0 ? 0xFFFF : unit >= 'A' && unit <= 'Z' ? unit + 32 : unit;
    }
}
