package sectorglass.ntfs;

import java.util.Arrays;

/**
 * Decompression of LZNT1. Source: Microsoft MS-XCA, 2.5. A unit is a row of chunks; each has a head of two bytes and gives up to 4096
 * bytes. References never leave their chunk.
 */
final class Lznt1 {
    private static final int CHUNK = 4096;

    private Lznt1() {
    }

    /**
     * Decompresses a unit. A chunk that is short but not the last is filled with zeros to 4096 bytes; after a head of 0 the rest is zero.
     *
     * @param in compressed bytes
     * @param length how many of them
     * @param out filled with the content; its rest is set to zero
     * @return bytes of {@code out} that are right: all of them, or those before the first damaged chunk
     */
    static int unit(byte[] in, int length, byte[] out) {
        int from = 0;
        int to = 0;
        while (to < out.length && from + 2 <= length) {
            int head = in[from] & 0xFF | (in[from + 1] & 0xFF) << 8;
            if (head == 0) {
                break;
            }
            int body = (head & 0xFFF) + 1;
            from += 2;
            if ((head >> 12 & 7) != 3 || from + body > length) {
                return damaged(out, to);
            }
            int limit = Math.min(out.length, to + CHUNK);
            int end;
            if ((head & 0x8000) == 0) {
                end = Math.min(limit, to + body);
                System.arraycopy(in, from, out, to, end - to);
            } else {
                end = chunk(in, from, from + body, out, to, limit);
                if (end < 0) {
                    return damaged(out, to);
                }
            }
            from += body;
            Arrays.fill(out, end, limit, (byte) 0);
            to = limit;
        }
        Arrays.fill(out, to, out.length, (byte) 0);
        return out.length;
    }

    private static int damaged(byte[] out, int good) {
        Arrays.fill(out, good, out.length, (byte) 0);
        return good;
    }

    /** Gives the end of what was written, or -1 where the chunk is damaged. */
    private static int chunk(byte[] in, int start, int end, byte[] out, int base, int limit) {
        int from = start;
        int to = base;
        while (from < end) {
            int flags = in[from++];
            for (int bit = 0; bit < 8 && from < end; bit++) {
                if ((flags >> bit & 1) == 0) {
                    if (to >= limit) {
                        return -1;
                    }
                    out[to++] = in[from++];
                    continue;
                }
                int done = to - base;
                if (from + 2 > end || done == 0) {
                    return -1;
                }
                int word = in[from] & 0xFF | (in[from + 1] & 0xFF) << 8;
                from += 2;
                int lengthBits = 12;
                for (int most = 16; most < done; most <<= 1) {
                    lengthBits--;
                }
                int count = (word & (1 << lengthBits) - 1) + 3;
                int back = (word >> lengthBits) + 1;
                if (back > done || count > limit - to) {
                    return -1;
                }
                for (int i = 0; i < count; i++) {
                    out[to] = out[to - back];
                    to++;
                }
            }
        }
        return to;
    }
}
