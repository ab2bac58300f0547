package sectorglass.apple;

import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.BiConsumer;

import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/**
 * Extents beyond the first eight of a fork, from the leaves of the extents file. Source: Apple TN1150, "Extents Overflow File", by way of
 * hfs_format.h (xnu).
 */
final class HfsOverflow {
    /** Id of the file of bad blocks; all its extents are here. */
    static final long BAD_BLOCKS = 5;
    private static final int MOST = 1 << 20;

    private final HfsLayout layout;
    /** Node and place of each record, by file id and fork, then by first block of the fork. */
    private final Map<Long, TreeMap<Long, Long>> records = new HashMap<>();
    private final HfsTree tree;
    private boolean whole = true;
    private SectorRanges unread = SectorRanges.EMPTY;
    private int count;

    HfsOverflow(HfsLayout layout) {
        this.layout = layout;
        this.tree = layout.tree(HfsTree.Kind.EXTENTS);
        if (tree != null) {
            HfsTree.Scan scan = tree.scan(this::leaf, Progress.NONE);
            whole = scan.whole() && count < MOST;
            unread = scan.unread();
        } else {
            HfsFork fork = layout.fork(HfsTree.Kind.EXTENTS);
            whole = fork.bytes() == 0;
            if (!whole && fork.held(layout.site) >= 512) {
                unread = layout.window(fork, 0, 512).missing(0, 512);
            }
        }
    }

    private void leaf(long node, Window w, int[] offsets) {
        for (int i = 0; i + 1 < offsets.length && count < MOST; i++) {
            int at = offsets[i];
            if (w.u16be(at) == 10 && at + 12 + 64 <= offsets[i + 1]) {
                count++;
                records.computeIfAbsent(w.u32be(at + 4) << 8 | w.u8(at + 2), id -> new TreeMap<>()).put(w.u32be(at + 8), node << 16 | at + 12);
            }
        }
    }

    /** Whether all of the extents file was read and its chain of leaves followed. */
    boolean whole() {
        return whole;
    }

    /** Sectors of the extents file that were not read. */
    SectorRanges unread() {
        return unread;
    }

    /**
     * A fork with all its extents, as far as known without a gap.
     *
     * @param w holds the fork data at a byte
     * @param kind 0 for the data fork, 0xFF for the resource fork
     */
    HfsFork fork(Window w, int at, long id, int kind) {
        return more(HfsFork.read(w, at, layout.blockSize), id, kind);
    }

    private HfsFork more(HfsFork first, long id, int kind) {
        HfsFork fork = first;
        TreeMap<Long, Long> more = records.get(id << 8 | kind);
        for (int i = 0; more != null && i < more.size() && more.containsKey(fork.blocks()); i++) {
            long before = fork.blocks();
            long place = more.get(before);
            fork = fork.more(tree.node(place >>> 16), (int) (place & 0xFFFF));
            if (fork.blocks() == before) {
                break;
            }
        }
        return fork;
    }

    /** The bad blocks. */
    HfsFork badBlocks() {
        return more(new HfsFork(0, layout.blockSize, new long[0], new long[0]), BAD_BLOCKS, 0);
    }

    /** Every fork that has extents here: its key, file id above fork, and how many blocks come before its first record here. */
    void forks(BiConsumer<Long, Long> visitor) {
        records.forEach((key, more) -> visitor.accept(key, more.firstKey()));
    }
}
