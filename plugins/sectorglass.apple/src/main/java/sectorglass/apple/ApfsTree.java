package sectorglass.apple;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.LongUnaryOperator;

import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/**
 * A B-tree of APFS, walked from its root. Levels fall from node to node, so no walk is without end. Source: Apple File System Reference,
 * "B-Trees", by way of apfs_raw.h (linux-apfs).
 */
final class ApfsTree {
    static final int MOST_LEVELS = 12;
    /** More nodes than a tree on a bench has. */
    private static final int MOST_NODES = 1 << 24;
    /** Nodes that one search may look at. */
    private static final int MOST_FOUND = 1 << 16;

    /** Sees nodes. */
    interface Visitor {
        /**
         * A node that was read and whose table fits.
         *
         * @param id its object id as its parent names it
         */
        void node(long block, long id, ApfsNode node);
    }

    /** Which keys are wanted: below 0 where all keys up to this one are too small, above 0 where it and all after it are too large. */
    interface Order {
        int of(ApfsNode node, int key);
    }

    private final ApfsContainer container;
    private final long rootId;
    private final LongUnaryOperator blocks;
    private final int fixedKey;
    private final int fixedValue;
    private final List<SectorRange> unread = new ArrayList<>();
    private boolean damaged;
    private int left;

    /**
     * @param rootId object id of the root
     * @param blocks gives the block of an object id, or -1
     */
    ApfsTree(ApfsContainer container, long rootId, LongUnaryOperator blocks, int fixedKey, int fixedValue) {
        this.container = container;
        this.rootId = rootId;
        this.blocks = blocks;
        this.fixedKey = fixedKey;
        this.fixedValue = fixedValue;
    }

    /** Sectors of nodes that were not read, over all walks so far. */
    SectorRanges unread() {
        return SectorRanges.of(unread);
    }

    /** Whether a walk met a node that could not be used. */
    boolean damaged() {
        return damaged;
    }

    /** Visits all nodes, each before what hangs below it, leaves in the order of their keys. */
    void walk(Visitor visitor, Progress progress) {
        Set<Long> seen = new HashSet<>();
        node(rootId, -1, null, (block, id, node) -> visitor.node(block, id, node), seen, progress);
    }

    /** Visits the leaves that may hold wanted keys. */
    void find(Order wanted, Visitor leaves) {
        left = MOST_FOUND;
        node(rootId, -1, wanted, (block, id, node) -> {
            if (node.leaf()) {
                leaves.node(block, id, node);
            }
        }, null, Progress.NONE);
    }

    private void node(long id, int level, Order wanted, Visitor visitor, Set<Long> seen, Progress progress) {
        long block = blocks.applyAsLong(id);
        if (seen == null && left-- <= 0 || block < 0 || !container.header(block).inside() || seen != null && (seen.size() >= MOST_NODES || !seen.add(block))) {
            damaged = true;
            return;
        }
        progress.checkCancelled();
        Window w = container.header(block).window();
        if (!w.isRead(0, container.blockSize)) {
            w.missing(0, container.blockSize).forEach(unread::add);
            return;
        }
        ApfsNode node = kind(w) ? ApfsNode.of(w, fixedKey, fixedValue) : null;
        if (node == null || level >= 0 && node.level() != level || node.level() > MOST_LEVELS || node.leaf() != (node.level() == 0)) {
            damaged = true;
            return;
        }
        visitor.node(block, id, node);
        for (int i = 0; !node.leaf() && i < node.count(); i++) {
            if (wanted != null && (i + 1 < node.count() && wanted.of(node, i + 1) < 0 || i > 0 && wanted.of(node, i) > 0)) {
                continue;
            }
            node(node.child(i), node.level() - 1, wanted, visitor, seen, progress);
        }
    }

    /** Whether the object header says B-tree. */
    private static boolean kind(Window w) {
        int type = w.u16le(24);
        return type == 2 || type == 3;
    }
}
