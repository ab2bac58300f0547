package sectorglass.exfat;

import java.util.Arrays;
import java.util.BitSet;

/** Random access to a stretch, 64 KiB at a time. Not safe for several threads. */
final class Pages {

    private static final int PAGE = 1 << 16;
    /** Pages kept at most: 64 MiB. */
    private static final int MOST = 1024;

    private final Stretch stretch;
    private final byte[][] pages;
    private final BitSet[] gaps;
    private int held;

    /** @param length bytes that will be asked for; at most 2^47 */
    Pages(Stretch stretch, long length) {
        this.stretch = stretch;
        int count = (int) ((Math.min(length, stretch.length()) + PAGE - 1) / PAGE);
        this.pages = new byte[count][];
        this.gaps = new BitSet[count];
    }

    /** The byte, or -1 where it was not read or lies beyond the end. */
    int u8(long at) {
        if (at < 0 || at >= stretch.length()) {
            return -1;
        }
        int page = (int) (at / PAGE);
        byte[] bytes = pages[page] == null ? load(page) : pages[page];
        int offset = (int) (at % PAGE);
        return gaps[page] != null && gaps[page].get(offset) ? -1 : bytes[offset] & 0xFF;
    }

    /** The aligned 32-bit value, or -1. */
    long u32(long at) {
        if (at < 0 || at + 4 > stretch.length()) {
            return -1;
        }
        int page = (int) (at / PAGE);
        byte[] bytes = pages[page] == null ? load(page) : pages[page];
        int offset = (int) (at % PAGE);
        if (gaps[page] != null && gaps[page].get(offset)) {
            return -1;
        }
        return (bytes[offset] & 0xFF | (bytes[offset + 1] & 0xFF) << 8 | (bytes[offset + 2] & 0xFF) << 16 | bytes[offset + 3] << 24)
                & 0xFFFFFFFFL;
    }

    private byte[] load(int page) {
        if (held >= MOST) {
            Arrays.fill(pages, null);
            Arrays.fill(gaps, null);
            held = 0;
        }
        long at = (long) page * PAGE;
        byte[] bytes = new byte[PAGE];
        gaps[page] = stretch.read(at, bytes, (int) Math.min(PAGE, stretch.length() - at));
        pages[page] = bytes;
        held++;
        return bytes;
    }
}
