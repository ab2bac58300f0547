package sectorglass.apple;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntConsumer;

import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** Which blocks the files of all volumes own, by their extent records. Source: Apple File System Reference, by way of apfs_raw.h. */
final class ApfsClaims {
    private static final int MOST = 1 << 24;

    private final ApfsContainer container;
    private final LongList starts = new LongList();
    private final LongList counts = new LongList();
    private final LongList streams = new LongList();
    private final LongList offsets = new LongList();
    private final LongList volumes = new LongList();
    private Integer[] order;
    private long longest;

    ApfsClaims(ApfsContainer container, List<ApfsCatalog> catalogs, Progress progress) {
        this.container = container;
        for (int i = 0; i < catalogs.size(); i++) {
            ApfsCatalog catalog = catalogs.get(i);
            for (int k = 0; k < catalog.leaves.size(); k++) {
                progress.checkCancelled();
                leaf(catalog.node(catalog.leaves.get(k)), i);
            }
        }
        order = new Integer[starts.size()];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (a, b) -> Long.compare(starts.get(a), starts.get(b)));
    }

    private void leaf(ApfsNode node, int volume) {
        Window w = node.w;
        for (int i = 0; i < node.count() && starts.size() < MOST; i++) {
            int key = node.key(i);
            int value = node.value(i);
            if (key < 0 || value < 0 || node.keyLength(i) < 16 || node.valueLength(i) < 16
                    || ApfsRecords.type(w, key) != ApfsRecords.FILE_EXTENT) {
                continue;
            }
            long block = w.u64le(value + 8);
            long count = ((w.u64le(value) & ApfsRecords.EXTENT_LENGTH) + container.blockSize - 1) / container.blockSize;
            if (block > 0 && count > 0) {
                starts.add(block);
                counts.add(count);
                streams.add(ApfsRecords.id(w, key));
                offsets.add(w.u64le(key + 8));
                volumes.add(volume);
                longest = Math.max(longest, count);
            }
        }
    }

    int size() {
        return order.length;
    }

    long start(int place) {
        return starts.get(order[place]);
    }

    long count(int place) {
        return counts.get(order[place]);
    }

    /** Id of the data stream, mostly that of the inode. */
    long stream(int place) {
        return streams.get(order[place]);
    }

    /** Byte of the stream that stands at the first block. */
    long offset(int place) {
        return offsets.get(order[place]);
    }

    /** Number of the volume. */
    int volume(int place) {
        return (int) volumes.get(order[place]);
    }

    /** Visits the claims that touch blocks, in their order. */
    void touching(long block, long end, IntConsumer visitor) {
        int low = 0;
        for (int high = order.length; low < high;) {
            int middle = low + high >>> 1;
            if (start(middle) < block - longest) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        for (int i = low; i < order.length && start(i) < end; i++) {
            if (start(i) + count(i) > block) {
                visitor.accept(i);
            }
        }
    }

    /** Sectors of blocks, the parts outside the container left out. */
    static SectorRanges sectors(ApfsContainer container, LongList blocks) {
        List<SectorRange> all = new ArrayList<>();
        for (int i = 0; i < blocks.size(); i++) {
            if (container.header(blocks.get(i)).inside()) {
                all.add(container.sectors(blocks.get(i), 1));
            }
        }
        return SectorRanges.of(all);
    }
}
