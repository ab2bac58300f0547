package sectorglass.apple;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;

import sectorglass.disk.Level;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/**
 * Judges a B-tree: header node, index nodes from the root, leaves in the order of the index or, where the index is unread, of their chain.
 * Source: Apple TN1150, "B-Trees", by way of hfs_format.h (xnu).
 */
final class HfsTreeChecks {
    private static final int MOST_LEVELS = 16;

    private record Pointer(long node, int level) { }

    private final HfsTree tree;
    private final Checks all;
    private final Tally tally;
    private final HfsTree.Leaf visitor;
    private final Window head;
    private final boolean binary;
    private final BitSet seen = new BitSet();
    /** Leaves in the order of the index. */
    private final List<Long> leaves = new ArrayList<>();
    private final List<SectorRange> unread = new ArrayList<>();
    private boolean indexWhole = true;
    private boolean incomplete;
    private Mark fault;
    private Mark headMark;
    private byte[] lastKey;
    private long records;

    /** @param visitor sees each legal leaf in a full check */
    HfsTreeChecks(HfsTree tree, Checks all, HfsTree.Leaf visitor) {
        this.tree = tree;
        this.all = all;
        this.tally = new Tally(all, tree.range(0));
        this.visitor = visitor;
        this.head = tree.node(0);
        this.binary = tree.kind == HfsTree.Kind.CATALOG && head.isRead(0, tree.nodeSize) && head.u8(51) == 0xBC;
    }

    /** Whether every node of the tree was read and found legal; after {@link #check} at full level. */
    boolean whole() {
        return !incomplete && fault == null && unread.isEmpty();
    }

    /** A node that could not be used, or null. */
    Mark fault() {
        return fault;
    }

    /** Sectors of the tree that were not read. */
    SectorRanges unread() {
        return SectorRanges.of(unread);
    }

    void check(Level level, Progress progress) {
        ByteRange where = tree.range(0);
        headMark = all.in(where).check("hfs.btree.node", where, this::header);
        if (!headMark.passed()) {
            if (headMark.failed()) {
                fault = headMark;
            } else {
                tree.node(0).missing(0, tree.nodeSize).forEach(unread::add);
            }
        }
        if (level != Level.FULL || headMark.failed() || tree.guessed || !head.isRead(0, 120)) {
            incomplete = true;
            return;
        }
        index(progress);
        leaves(progress);
        totals(where);
        tally.finish(List.of("hfs.btree.node"), null);
        tally.finish(List.of("hfs.btree.chain", "hfs.btree.order"), fault);
    }

    private Outcome header() {
        long total = head.u32be(36);
        int[] offsets = HfsTree.records(head);
        String problem = head.u8(8) != HfsTree.HEADER || head.u8(9) != 0 ? "kind " + head.u8(8) + ", level " + head.u8(9)
                : offsets == null || offsets.length != 4 || offsets[1] != 120 || offsets[2] != 248 ? "records out of place"
                : total * tree.nodeSize != tree.fork.bytes() ? total + " nodes of " + tree.nodeSize + " bytes"
                : head.u32be(40) > total ? head.u32be(40) + " free nodes of " + total
                : head.u32be(16) >= total || head.u32be(24) >= total || head.u32be(28) >= total ? "root, first or last leaf beyond the last node"
                : head.u16be(14) > MOST_LEVELS || head.u16be(14) == 0 != (head.u32be(16) == 0) ? head.u16be(14) + " levels, root " + head.u32be(16)
                : null;
        return Outcome.test(problem == null, word("header node: " + problem), "kind 1, level 0, three records, "
                + tree.fork.bytes() / tree.nodeSize + " nodes");
    }

    /** Walks the index from the root; gathers the leaves that it points at. */
    private void index(Progress progress) {
        Deque<Pointer> stack = new ArrayDeque<>();
        if (head.u32be(16) != 0) {
            stack.push(new Pointer(head.u32be(16), head.u16be(14)));
        }
        while (!stack.isEmpty()) {
            progress.checkCancelled();
            Pointer at = stack.pop();
            if (at.node() >= Math.min(HfsTree.MOST_NODES, tree.nodes()) || seen.get((int) at.node())) {
                ByteRange where = tree.range(0);
                fault = tally.fail("hfs.btree.chain", where, where, Outcome.failed(word("node " + at.node() + " once more or beyond the last"),
                        "each node once"));
                indexWhole = false;
                continue;
            }
            seen.set((int) at.node());
            if (at.level() <= 1) {
                leaves.add(at.node());
            } else {
                children(at, stack);
            }
        }
    }

    private void children(Pointer at, Deque<Pointer> stack) {
        Window w = tree.node(at.node());
        ByteRange where = w.range(0, tree.nodeSize);
        int[][] offsets = new int[1][];
        Mark sound = node(at.node(), w, where, HfsTree.INDEX, at.level(), offsets);
        if (!sound.passed()) {
            indexWhole = false;
            return;
        }
        boolean variable = (head.u32be(52) & 4) != 0;
        Mark order = tally.check("hfs.btree.order", where, where, () -> order(w, offsets[0], at.node(), null));
        for (int i = offsets[0].length - 2; i >= 0 && order.passed(); i--) {
            int key = offsets[0][i];
            int data = variable ? HfsKeys.data(w, key) : key + 2 + head.u16be(34) + (head.u16be(34) & 1);
            if (data + 4 <= offsets[0][i + 1]) {
                stack.push(new Pointer(w.u32be(data), at.level() - 1));
            } else {
                indexWhole = false;
            }
        }
        indexWhole &= order.passed();
    }

    /** Kind, level and records of a node. */
    private Mark node(long number, Window w, ByteRange where, int kind, int level, int[][] offsets) {
        Mark mark = tally.check("hfs.btree.node", where, where, () -> {
            boolean right = w.u8(8) == kind && w.u8(9) == level;
            if (right) {
                w.require(0, w.length());
                offsets[0] = HfsTree.records(w);
            }
            return Outcome.test(right && offsets[0] != null, word("node " + number + ": kind " + w.u8(8) + ", level " + w.u8(9)
                    + (right ? ", records out of order" : "")), "kind " + kind + ", level " + level + ", records in order").because(headMark);
        });
        if (mark.failed()) {
            fault = fault == null ? mark : fault;
        } else if (!mark.passed()) {
            w.missing(0, tree.nodeSize).forEach(unread::add);
        }
        return mark;
    }

    private String word(String text) {
        return tree.kind.word + " tree, " + text;
    }

    private void leaves(Progress progress) {
        long first = head.u32be(24);
        if (indexWhole) {
            for (int i = 0; i < leaves.size(); i++) {
                progress.checkCancelled();
                progress.at(tree.kind.word, i, leaves.size());
                leaf(leaves.get(i), i == 0 ? 0 : leaves.get(i - 1), i + 1 < leaves.size() ? leaves.get(i + 1) : 0);
            }
            Mark ends = tally.check("hfs.btree.chain", tree.range(0), head.range(24, 8), () -> {
                long last = leaves.isEmpty() ? 0 : leaves.get(leaves.size() - 1);
                long start = leaves.isEmpty() ? 0 : leaves.get(0);
                return Outcome.test(first == start && head.u32be(28) == last, word("leaves " + first + " to " + head.u32be(28)), start + " to " + last);
            });
            fault = fault == null && ends.failed() ? ends : fault;
            return;
        }
        BitSet done = new BitSet();
        long before = 0;
        for (long at = first; at != 0;) {
            progress.checkCancelled();
            if (at >= Math.min(HfsTree.MOST_NODES, tree.nodes()) || done.get((int) at)) {
                fault = tally.fail("hfs.btree.chain", tree.range(0), head.range(24, 4), Outcome.failed(word("node " + at
                        + " once more or beyond the last"), "each node once").because(fault));
                return;
            }
            done.set((int) at);
            if (!leaf(at, before, -1)) {
                return;
            }
            before = at;
            at = tree.node(at).u32be(0);
        }
    }

    /** @param after the leaf that should follow, or -1 where nothing tells */
    private boolean leaf(long number, long before, long after) {
        Window w = tree.node(number);
        ByteRange where = w.range(0, tree.nodeSize);
        int[][] offsets = new int[1][];
        Mark sound = node(number, w, where, HfsTree.LEAF, 1, offsets);
        Mark links = tally.check("hfs.btree.chain", where, w.range(0, 8), () -> Outcome.test(w.u32be(4) == before && (after < 0 || w.u32be(0) == after),
                word("node " + number + ": links " + w.u32be(0) + " and " + w.u32be(4)), (after < 0 ? "" : after + " and ") + before).because(sound));
        fault = fault == null && links.failed() ? links : fault;
        if (!sound.passed()) {
            return false;
        }
        Mark order = tally.check("hfs.btree.order", where, where, () -> order(w, offsets[0], number, lastKey));
        fault = fault == null && order.failed() ? order : fault;
        records += offsets[0].length - 1;
        visitor.node(number, w, offsets[0]);
        return true;
    }

    /** Keys are legal and rise, also from the node before. */
    private Outcome order(Window w, int[] offsets, long node, byte[] from) {
        byte[] last = from;
        for (int i = 0; i + 1 < offsets.length; i++) {
            if (!HfsKeys.legal(tree.kind, w, offsets[i], offsets[i + 1])) {
                return broken(w, offsets[i], "a key of " + w.u16be(offsets[i]) + " bytes", "a length that the record can hold", node);
            }
            byte[] key = HfsKeys.bytes(w, offsets[i]);
            Integer order = last == null ? null : HfsKeys.compare(tree.kind, last, key, binary);
            if (order != null && order >= 0) {
                return broken(w, offsets[i], "record " + i + (order == 0 ? " with the key of the one before" : " with a key below the one before"),
                        "keys that rise", node);
            }
            last = key;
        }
        if (w.u8(8) == HfsTree.LEAF) {
            lastKey = last;
        }
        return Outcome.passed();
    }

    private Outcome broken(Window w, int at, String stored, String computed, long node) {
        return Outcome.failed(word("node " + node + ": " + stored), computed).at(w.range(at, 2));
    }

    private void totals(ByteRange where) {
        if (fault != null) {
            return;
        }
        all.in(where).check("hfs.btree.records", head.range(20, 4), () -> !unread.isEmpty() ? Outcome.unread(unread()) : Outcome.test(
                head.u32be(20) == records, word(head.u32be(20) + " records"), records));
        all.in(where).check("hfs.btree.map", where, () -> {
            head.require(0, tree.nodeSize);
            if (!unread.isEmpty()) {
                return Outcome.unread(unread());
            }
            BitSet map = tree.map();
            if (map == null) {
                return maps();
            }
            BitSet used = (BitSet) seen.clone();
            used.set(0);
            for (long at = head.u32be(0), steps = 0; at != 0 && at < tree.nodes() && steps < 4096; at = tree.node(at).u32be(0), steps++) {
                used.set((int) at);
            }
            long free = head.u32be(36) - used.cardinality();
            BitSet differ = (BitSet) map.clone();
            differ.xor(used);
            return Outcome.test(differ.isEmpty() && head.u32be(40) == free, word(map.cardinality() + " nodes in the map, " + head.u32be(40) + " free"
                    + (differ.isEmpty() ? "" : ", the first that differs is node " + differ.nextSetBit(0))),
                    used.cardinality() + " in use, " + free + " free");
        });
    }

    /** Map nodes that cannot be used: unread, or not legal. */
    private Outcome maps() {
        long at = head.u32be(0);
        for (int steps = 0; at != 0 && at < tree.nodes() && steps < 4096; steps++) {
            Window w = tree.node(at);
            w.require(0, tree.nodeSize);
            at = w.u32be(0);
        }
        return Outcome.failed(word("map nodes that are not legal"), "a chain of map nodes");
    }
}
