package sectorglass.apple;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.disk.Extent;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * A fork by its extents. Source: Apple TN1150, "Fork Data Structure", by way of hfs_format.h (xnu).
 *
 * @param bytes logical size, never negative
 * @param blockSize bytes per allocation block
 * @param starts first allocation block of each extent
 * @param ends allocation blocks of the fork up to the end of each extent
 */
record HfsFork(long bytes, long blockSize, long[] starts, long[] ends) {

    /** Extents in one record. */
    static final int EXTENTS = 8;
    /** Bytes of a fork in a header or catalog record. */
    static final int LENGTH = 80;

    /** The fork data at a byte of a header or catalog record. */
    static HfsFork read(Window w, int at, long blockSize) {
        return new HfsFork(Math.max(0, w.u64be(at)), blockSize, new long[0], new long[0]).more(w, at + 16);
    }

    /** The fork with the eight extents at a byte behind its own; the first empty one ends the list. */
    HfsFork more(Window w, int at) {
        long[] first = Arrays.copyOf(starts, starts.length + EXTENTS);
        long[] passed = Arrays.copyOf(ends, starts.length + EXTENTS);
        int n = starts.length;
        long blocks = blocks();
        for (int i = 0; i < EXTENTS && w.u32be(at + 4 + 8 * i) > 0; i++) {
            first[n] = w.u32be(at + 8 * i);
            blocks += w.u32be(at + 4 + 8 * i);
            passed[n++] = blocks;
        }
        return new HfsFork(bytes, blockSize, Arrays.copyOf(first, n), Arrays.copyOf(passed, n));
    }

    /** Blocks that its extents hold. */
    long blocks() {
        return ends.length == 0 ? 0 : ends[ends.length - 1];
    }

    /** Blocks of one extent. */
    long count(int extent) {
        return ends[extent] - (extent == 0 ? 0 : ends[extent - 1]);
    }

    /** Bytes that the extents hold, at most those of the site: the logical size is only a claim. */
    long held(VolumeSite site) {
        return Math.min(Math.min(bytes, blocks() * blockSize), site.bytes());
    }

    /** Whether the extents hold all of the logical size. */
    boolean complete() {
        return blocks() * blockSize >= bytes;
    }

    /** The extent that holds a block of the fork; their number where none does. */
    private int extent(long block) {
        int found = Arrays.binarySearch(ends, block + 1);
        return found >= 0 ? found : -found - 1;
    }

    /** Byte of the fork that stands at a byte of the volume, or -1. */
    long offset(long volumeByte) {
        for (int i = 0; i < starts.length; i++) {
            long from = starts[i] * blockSize;
            if (volumeByte >= from && volumeByte < from + count(i) * blockSize) {
                return ends[i] * blockSize - count(i) * blockSize + volumeByte - from;
            }
        }
        return -1;
    }

    /** Bytes of the fork; extents are joined. Beyond the extents the bytes count as not read. */
    Window window(VolumeSite site, long volumeStart, long at, int length) {
        List<Window> parts = new ArrayList<>(1);
        int done = 0;
        for (int i = extent(at / blockSize); i < starts.length && done < length; i++) {
            long from = at + done - (ends[i] - count(i)) * blockSize;
            int n = (int) Math.min(length - done, count(i) * blockSize - from);
            parts.add(site.window(volumeStart + starts[i] * blockSize + from, n));
            done += n;
        }
        if (done < length) {
            parts.add(site.window(site.bytes() + (1L << 40), length - done));
        }
        return parts.size() == 1 ? parts.get(0) : Window.joined(parts);
    }

    /**
     * Its pieces, those outside the volume as unknown ones.
     *
     * @param volumeByte image byte of block 0
     * @param volumeBytes length of the volume
     */
    List<Extent> pieces(long volumeByte, long volumeBytes) {
        List<Extent> all = new ArrayList<>(starts.length);
        for (int i = 0; i < starts.length; i++) {
            long length = count(i) * blockSize;
            long at = starts[i] * blockSize;
            long offset = ends[i] * blockSize - length;
            all.add(at + length > volumeBytes + blockSize ? Extent.unknown(offset, length) : Extent.plain(offset, length, volumeByte + at));
        }
        return all;
    }
}
