package sectorglass.recovery;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/**
 * Finds a needle in an array. It looks for one of the needle's whole bytes, 32 places at a time in four longs (the test for a zero byte
 * by subtraction, common practice, no source), and compares the needle where that byte stands. Where that byte turns out to be frequent,
 * a run of four or more whole bytes is looked for by a table of shifts over pairs of bytes (the method of Horspool, Software: Practice
 * and Experience 10, 1980) instead.
 */
final class NeedleScan {
    private static final VarHandle LONGS = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    private static final long LOW = 0x0101010101010101L;
    private static final long HIGH = 0x8080808080808080L;
    private static final int BLOCK = 32;
    private static final int PAIRS = 4;
    /** Places looked at for each place that only looked like the needle, below which the table serves better. */
    private static final int FREQUENT = 24;

    private final Needle needle;
    /** Index of the byte that is looked for. */
    private final int rare;
    /** The longest run of whole bytes. */
    private final int runStart;
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
        runStart = best;
        run = Math.min(length, 127);
        shifts = run >= PAIRS ? shifts() : null;
        rare = rare();
    }

    /** The whole byte that disks hold least of: fillers and small numbers are common, letters of texts less so. */
    private int rare() {
        int best = -1;
        for (int i = 0; i < needle.length(); i++) {
            if (needle.mask()[i] == (byte) 0xFF && (best < 0 || weight(needle.bytes()[i]) < weight(needle.bytes()[best]))) {
                best = i;
            }
        }
        return best;
    }

    private static int weight(byte value) {
        int b = value & 0xFF;
        return b == 0 ? 9 : b == 0xFF ? 8 : b == ' ' || b < 4 ? 7 : b == 0xF6 || b == 'e' || b < 0x20 ? 4 : b >= 'a' && b <= 'z' ? 3
                : b >= '0' && b <= '9' ? 2 : 1;
    }

    private byte[] shifts() {
        byte[] table = new byte[1 << 16];
        java.util.Arrays.fill(table, (byte) (run - 1));
        byte[] b = needle.bytes();
        for (int i = 0; i + 1 < run - 1; i++) {
            table[pair(b[runStart + i] & 0xFF, b[runStart + i + 1] & 0xFF)] = (byte) (run - 2 - i);
        }
        table[pair(b[runStart + run - 2] & 0xFF, b[runStart + run - 1] & 0xFF)] = 0;
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
        return from > last ? -1 : byRare(in, from, last);
    }

    private int byRare(byte[] in, int from, int last) {
        byte wanted = needle.bytes()[rare];
        long spread = (wanted & 0xFFL) * LOW;
        int at = from + rare;
        int stop = last + rare;
        int wrong = 0;
        while (at + BLOCK - 1 <= stop) {
            long a = zeros((long) LONGS.get(in, at) ^ spread);
            long b = zeros((long) LONGS.get(in, at + 8) ^ spread);
            long c = zeros((long) LONGS.get(in, at + 16) ^ spread);
            long d = zeros((long) LONGS.get(in, at + 24) ^ spread);
            if ((a | b | c | d) != 0) {
                int hit = first(in, at, a);
                hit = hit >= 0 ? hit : first(in, at + 8, b);
                hit = hit >= 0 ? hit : first(in, at + 16, c);
                hit = hit >= 0 ? hit : first(in, at + 24, d);
                if (hit >= 0) {
                    return hit;
                }
                wrong += Long.bitCount(a) + Long.bitCount(b) + Long.bitCount(c) + Long.bitCount(d);
                if (shifts != null && wrong > 256 && (long) wrong * FREQUENT > at - from) {
                    return byShifts(in, at + BLOCK - rare, last);
                }
            }
            at += BLOCK;
        }
        for (; at <= stop; at++) {
            if (in[at] == wanted && needle.matches(in, at - rare)) {
                return at - rare;
            }
        }
        return -1;
    }

    /** The high bit of each byte that is zero; above the lowest such byte also of some that are 1. */
    private static long zeros(long bytes) {
        return bytes - LOW & ~bytes & HIGH;
    }

    /** The first place among those marked where the needle stands, or -1. */
    private int first(byte[] in, int at, long marks) {
        for (long left = marks; left != 0; left &= left - 1) {
            int hit = at + (Long.numberOfTrailingZeros(left) >>> 3) - rare;
            if (needle.matches(in, hit)) {
                return hit;
            }
        }
        return -1;
    }

    private int byShifts(byte[] in, int from, int last) {
        byte[] table = shifts;
        int place = from + runStart + run - 2;
        int stop = last + runStart + run - 2;
        while (place <= stop) {
            int shift = table[in[place] & 0xFF | (in[place + 1] & 0xFF) << 8];
            if (shift == 0) {
                int at = place - run + 2 - runStart;
                if (needle.matches(in, at)) {
                    return at;
                }
                shift = 1;
            }
            place += shift;
        }
        return -1;
    }
}
