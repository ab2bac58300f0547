package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.disk.ExtentContent;
import sectorglass.image.ByteRange;

/**
 * Decompression of LZNT1. Source: Microsoft MS-XCA, 2.5. A unit is a row of chunks; each has a head of two bytes and gives up to 4096
 * bytes. References never leave their chunk.
 */
final class Lznt1 {
    private static final int CHUNK = 4096;

    private Lznt1() {
    }

    /** Nothing of the input is unread. */
    static final int[] WHOLE = {};

    /**
     * Decompresses a unit of which every byte was read.
     *
     * @return bytes of {@code out} that are right: all of them, or those before the first damaged chunk
     */
    static int unit(byte[] in, int length, byte[] out) {
        List<ByteRange> missing = unit(in, length, WHOLE, out);
        return missing.isEmpty() ? out.length : (int) missing.get(0).start();
    }

    /**
     * Decompresses a unit. A chunk that is short but not the last is filled with zeros to 4096 bytes; after a head of 0 the rest is zero.
     * Where bytes were not read, their chunk is right up to the last item before them; as its head tells where the next chunk begins,
     * decompression goes on there. Where a head was not read, or a chunk is damaged, the rest of the unit is missing.
     *
     * @param in compressed bytes
     * @param length how many of them
     * @param gaps where they were not read: pairs of first place and place after the last, in order
     * @param out filled with the content; what is missing is set to zero
     * @return ranges of {@code out} that are missing, in order
     */
    static List<ByteRange> unit(byte[] in, int length, int[] gaps, byte[] out) {
        List<ByteRange> missing = new ArrayList<>(0);
        int from = 0;
        int to = 0;
        while (to < out.length && from + 2 <= length) {
            if (gap(gaps, from, from + 2) >= 0) {
                return lost(out, to, missing);
            }
            int head = in[from] & 0xFF | (in[from + 1] & 0xFF) << 8;
            if (head == 0) {
                break;
            }
            int body = (head & 0xFFF) + 1;
            from += 2;
            if ((head >> 12 & 7) != 3 || from + body > length) {
                return lost(out, to, missing);
            }
            int limit = Math.min(out.length, to + CHUNK);
            int gap = gap(gaps, from, from + body);
            int end;
            if ((head & 0x8000) == 0) {
                end = Math.min(limit, to + body);
                System.arraycopy(in, from, out, to, end - to);
                stored(gaps, from, to, end, out, missing);
            } else {
                boolean cut = gap >= 0;
                end = chunk(in, from, cut ? Math.max(from, gaps[gap]) : from + body, cut, out, to, limit);
                if (end < 0) {
                    return lost(out, to, missing);
                }
                if (cut) {
                    ExtentContent.add(missing, end, limit - end);
                }
            }
            from += body;
            Arrays.fill(out, end, limit, (byte) 0);
            to = limit;
        }
        Arrays.fill(out, to, out.length, (byte) 0);
        return missing;
    }

    /** Index of the first gap that touches the places, or -1. */
    private static int gap(int[] gaps, int from, int to) {
        for (int i = 0; i < gaps.length && gaps[i] < to; i += 2) {
            if (gaps[i + 1] > from) {
                return i;
            }
        }
        return -1;
    }

    /** A chunk that stands as it is misses just what was not read. */
    private static void stored(int[] gaps, int from, int to, int end, byte[] out, List<ByteRange> missing) {
        for (int i = 0; i < gaps.length; i += 2) {
            int first = Math.max(to, to + gaps[i] - from);
            int last = Math.min(end, to + gaps[i + 1] - from);
            if (last > first) {
                Arrays.fill(out, first, last, (byte) 0);
                ExtentContent.add(missing, first, last - first);
            }
        }
    }

    private static List<ByteRange> lost(byte[] out, int from, List<ByteRange> missing) {
        Arrays.fill(out, from, out.length, (byte) 0);
        ExtentContent.add(missing, from, out.length - from);
        return missing;
    }

    /**
     * Gives the end of what was written, or -1 where the chunk is damaged.
     *
     * @param cut whether the chunk goes on at {@code end} with bytes that were not read
     */
    private static int chunk(byte[] in, int start, int end, boolean cut, byte[] out, int base, int limit) {
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
                    return cut && done > 0 ? to : -1;
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
