package sectorglass.recovery;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/**
 * Finds a needle in an array: by its longest run of whole bytes. A run of four bytes or more is looked for with a table of shifts by
 * pairs of bytes (the method of Horspool, Software: Practice and Experience 10, 1980, over pairs), a shorter one eight
 * bytes at a time for its first byte.
 */
final class NeedleScan {
    private static final VarHandle LONGS = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    private static final long LOW = 0x0101010101010101L;
    private static final long HIGH = 0x8080808080808080L;
    private static final int PAIRS = 4;

    private final Needle needle;
    private final int anchor;
    private final int run;
    private final byte[] shifts;

    NeedleScan(Needle needle) {
        this.needle = needle;
        int best = 0;
        int length = 0;
        for (int i = 0; i < needle.length();) {
            int from = i;
            while (i < needle.length() && needle.mask()[i] == (byte) 0xFF) {
                i++;
            }
            if (i - from > length) {
                best = from;
                length = i - from;
            }
            i++;
        }
        anchor = best;
        run = Math.min(length, 127);
        shifts = run >= PAIRS ? shifts() : null;
    }

    private byte[] shifts() {
        byte[] table = new byte[1 << 16];
        java.util.Arrays.fill(table, (byte) (run - 1));
        byte[] b = needle.bytes();
        for (int i = 0; i + 1 < run - 1; i++) {
            table[pair(b[anchor + i] & 0xFF, b[anchor + i + 1] & 0xFF)] = (byte) (run - 2 - i);
        }
        table[pair(b[anchor + run - 2] & 0xFF, b[anchor + run - 1] & 0xFF)] = 0;
        return table;
    }

    private static int pair(int first, int second) {
        return first | second << 8;
    }

    /**
     * Offset of the first place at or after {@code from} where the needle stands whole before {@code end}, or -1.
     */
    int next(byte[] in, int from, int end) {
        int last = end - needle.length();
        if (from > last) {
            return -1;
        }
        return shifts != null ? byShifts(in, from, last) : byFirst(in, from, last);
    }

    private int byShifts(byte[] in, int from, int last) {
        byte[] table = shifts;
        int place = from + anchor + run - 2;
        int stop = last + anchor + run - 2;
        while (place <= stop) {
            int shift = table[in[place] & 0xFF | (in[place + 1] & 0xFF) << 8];
            if (shift == 0) {
                int at = place - run + 2 - anchor;
                if (needle.matches(in, at)) {
                    return at;
                }
                shift = 1;
            }
            place += shift;
        }
        return -1;
    }

    private int byFirst(byte[] in, int from, int last) {
        byte wanted = needle.bytes()[anchor];
        long spread = (wanted & 0xFFL) * LOW;
        int at = from + anchor;
        int stop = last + anchor;
        while (at + 7 <= stop) {
            long different = (long) LONGS.get(in, at) ^ spread;
            long zero = different - LOW & ~different & HIGH;
            if (zero != 0) {
                int hit = at + (Long.numberOfTrailingZeros(zero) >>> 3);
                if (needle.matches(in, hit - anchor)) {
                    return hit - anchor;
                }
                at = hit + 1;
            } else {
                at += 8;
            }
        }
        for (; at <= stop; at++) {
            if (in[at] == wanted && needle.matches(in, at - anchor)) {
                return at - anchor;
            }
        }
        return -1;
    }
}
