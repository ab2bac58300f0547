package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * A fork by its extents.
 *
 * @param bytes logical size
 * @param blockSize bytes per allocation block
 * @param starts first allocation block of each extent
 * @param counts allocation blocks of each extent
 */
record HfsFork(long bytes, long blockSize, List<Long> starts, List<Long> counts) {

    /** The fork data at a byte of a header or catalog record. */
    static HfsFork read(Window w, int at, long blockSize) {
        List<Long> starts = new ArrayList<>();
        List<Long> counts = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            long count = w.u32be(at + 20 + 8 * i);
            if (count > 0) {
                starts.add(w.u32be(at + 16 + 8 * i));
                counts.add(count);
            }
        }
        return new HfsFork(Math.max(0, w.u64be(at)), blockSize, starts, counts);
    }

    /** Bytes that the extents hold, at most those of the site: the logical size is only a claim. */
    long held(VolumeSite site) {
        long held = 0;
        for (long count : counts) {
            held += count * blockSize;
        }
        return Math.min(Math.min(bytes, held), site.bytes());
    }

    /** Whether the extents hold all of the logical size. */
    boolean complete() {
        long blocks = 0;
        for (long count : counts) {
            blocks += count;
        }
        return blocks * blockSize >= bytes;
    }

    /** Byte of the volume where a byte of the fork stands, or -1 beyond the extents. */
    long place(long at) {
        long passed = 0;
        for (int i = 0; i < starts.size(); i++) {
            long length = counts.get(i) * blockSize;
            if (at < passed + length) {
                return starts.get(i) * blockSize + at - passed;
            }
            passed += length;
        }
        return -1;
    }

    /** Bytes of the fork; extents are joined. Beyond the extents the bytes count as not read. */
    Window window(VolumeSite site, long volumeStart, long at, int length) {
        List<Window> parts = new ArrayList<>();
        int done = 0;
        while (done < length) {
            long from = place(at + done);
            long inBlock = blockSize - (at + done) % blockSize;
            int n = (int) Math.min(length - done, inBlock);
            while (from >= 0 && done + n < length && place(at + done + n) == from + n) {
                n = (int) Math.min(length - done, n + blockSize);
            }
            parts.add(from < 0 ? site.window(site.bytes() + (1L << 40), n) : site.window(volumeStart + from, n));
            done += n;
        }
        return Window.joined(parts);
    }
}
