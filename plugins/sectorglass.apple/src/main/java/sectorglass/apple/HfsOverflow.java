package sectorglass.apple;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

import sectorglass.disk.VolumeFacts;
import sectorglass.image.Window;

/** Extents beyond the first eight of a fork, from the leaves of the extents file. Source: Apple TN1150 by way of hfs_format.h (xnu). */
final class HfsOverflow {
    private static final int MOST = 1 << 20;

    private final long blockSize;
    /** By file id and fork, then by first block of the fork. */
    private final Map<Long, TreeMap<Long, long[]>> records = new HashMap<>();

    HfsOverflow(HfsCatalog catalog, Window volumeHeader) {
        blockSize = volumeHeader.u32be(40);
        VolumeFacts.known(() -> {
            HfsFork fork = HfsFork.read(volumeHeader, 192, blockSize);
            int size = fork.window(catalog.site, catalog.place.start(), 0, 512).u16be(32);
            if (!VolumeFacts.power(size, 512, 32768)) {
                return false;
            }
            for (long node = 1; node < fork.held(catalog.site) / size && records.size() < MOST; node++) {
                Window w = fork.window(catalog.site, catalog.place.start(), node * size, size);
                if (w.isRead(0, size) && w.u8(8) == 0xFF && w.u8(9) == 1) {
                    leaf(w);
                }
            }
            return true;
        });
    }

    private void leaf(Window w) {
        int[] offsets = HfsCatalog.records(w);
        for (int i = 0; offsets != null && i + 1 < offsets.length; i++) {
            int at = offsets[i];
            if (w.u16be(at) == 10 && at + 12 + 64 <= offsets[i + 1]) {
                long[] extents = new long[16];
                for (int k = 0; k < 16; k++) {
                    extents[k] = w.u32be(at + 12 + 4 * k);
                }
                records.computeIfAbsent(w.u32be(at + 4) << 8 | w.u8(at + 2), id -> new TreeMap<>()).put(w.u32be(at + 8), extents);
            }
        }
    }

    /** A fork with all its extents, as far as known without a gap. */
    HfsFork fork(Window record, int at, long id, int kind) {
        HfsFork first = HfsFork.read(record, at, blockSize);
        List<Long> starts = new ArrayList<>(first.starts());
        List<Long> counts = new ArrayList<>(first.counts());
        long blocks = counts.stream().mapToLong(Long::longValue).sum();
        TreeMap<Long, long[]> more = records.get(id << 8 | kind);
        while (more != null && more.containsKey(blocks) && starts.size() < MOST) {
            long before = blocks;
            long[] extents = more.get(blocks);
            for (int k = 0; k < 16 && extents[k + 1] > 0; k += 2) {
                starts.add(extents[k]);
                counts.add(extents[k + 1]);
                blocks += extents[k + 1];
            }
            if (blocks == before) {
                break;
            }
        }
        return new HfsFork(first.bytes(), blockSize, starts, counts);
    }
}
