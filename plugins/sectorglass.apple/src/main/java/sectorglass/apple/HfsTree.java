package sectorglass.apple;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

import sectorglass.disk.VolumeFacts;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** A B-tree of an HFS+ volume. Source: Apple TN1150, "B-Trees", by way of hfs_format.h (xnu). */
final class HfsTree {
    /** Kind of a leaf, index, header and map node. */
    static final int LEAF = 0xFF;
    static final int INDEX = 0;
    static final int HEADER = 1;
    static final int MAP = 2;
    /** More nodes than a tree of any volume on a bench has: 16 GiB in nodes of 4 KiB. */
    static final long MOST_NODES = 1L << 22;
    /** Nodes that are tried to find out the size of nodes. */
    private static final int TRIED = 256;

    /** What the trees are for. */
    enum Kind {
        EXTENTS("extents", 192, 3),
        CATALOG("catalog", 272, 4),
        ATTRIBUTES("attributes", 352, 8);

        /** Word for people. */
        final String word;
        /** Byte of its fork in the volume header. */
        final int header;
        /** Id of its file. */
        final int id;

        Kind(String word, int header, int id) {
            this.word = word;
            this.header = header;
            this.id = id;
        }
    }

    /** Sees leaves. */
    interface Leaf {
        /**
         * A leaf whose bytes were read and whose records are legal.
         *
         * @param offsets of its records, and of the free space after them
         */
        void node(long number, Window w, int[] offsets);
    }

    /**
     * How a scan went.
     *
     * @param whole whether the chain of leaves was followed to its end
     * @param unread sectors of nodes that were not read
     */
    record Scan(boolean whole, SectorRanges unread) { }

    final HfsLayout layout;
    final Kind kind;
    final HfsFork fork;
    final int nodeSize;
    /** Whether the size of nodes was found out from the nodes themselves, because the header node was of no use. */
    final boolean guessed;

    private HfsTree(HfsLayout layout, Kind kind, HfsFork fork, int nodeSize, boolean guessed) {
        this.layout = layout;
        this.kind = kind;
        this.fork = fork;
        this.nodeSize = nodeSize;
        this.guessed = guessed;
    }

    /** The tree, or null where it has no node or nothing tells their size. */
    static HfsTree open(HfsLayout layout, Kind kind) {
        HfsFork fork = layout.fork(kind);
        if (fork.held(layout.site) < 512) {
            return null;
        }
        Integer size = VolumeFacts.known(() -> layout.window(fork, 0, 512).u16be(32));
        if (size != null && VolumeFacts.power(size, 512, 32768) && fork.held(layout.site) >= size) {
            return new HfsTree(layout, kind, fork, size, false);
        }
        int best = 0;
        HfsTree found = null;
        for (int tried = 512; tried <= 32768; tried *= 2) {
            HfsTree tree = new HfsTree(layout, kind, fork, tried, true);
            int leaves = tree.leaves();
            if (leaves > best) {
                best = leaves;
                found = tree;
            }
        }
        return found;
    }

    /** How many of the first nodes are leaves if the size of nodes is right. */
    private int leaves() {
        int found = 0;
        for (long node = 1; node < Math.min(TRIED, nodes()); node++) {
            Window w = node(node);
            found += w.isRead(0, nodeSize) && leaf(w) && w.u16be(10) > 0 && records(w) != null ? 1 : 0;
        }
        return found;
    }

    /** Number of nodes that the fork has room for. */
    long nodes() {
        return fork.held(layout.site) / nodeSize;
    }

    /** A node, read or not. */
    Window node(long number) {
        return layout.window(fork, number * nodeSize, nodeSize);
    }

    /** Image bytes of a node; where it lies on two pieces, of the first. */
    ByteRange range(long number) {
        return node(number).range(0, nodeSize);
    }

    /** Whether kind and level are those of a leaf. */
    static boolean leaf(Window w) {
        return w.u8(8) == LEAF && w.u8(9) == 1;
    }

    /** Offsets of records and of the free space, or null where they are not legal: from 14 on, rising, before the offsets themselves. */
    static int[] records(Window node) {
        int size = node.length();
        int count = node.u16be(10);
        if (14 + 2 * (count + 1) > size) {
            return null;
        }
        int[] offsets = new int[count + 1];
        for (int i = 0; i <= count; i++) {
            offsets[i] = node.u16be(size - 2 * (i + 1));
            if (i == 0 ? offsets[i] != 14 : offsets[i] <= offsets[i - 1] || offsets[i] > size - 2 * (count + 1)) {
                return null;
            }
        }
        return offsets;
    }

    /** Visits the leaves along their chain; where it is broken or unread, all other nodes that the map does not call free. */
    Scan scan(Leaf visitor, Progress progress) {
        long nodes = Math.min(MOST_NODES, nodes());
        BitSet done = new BitSet();
        List<SectorRange> unread = new ArrayList<>();
        Long at = guessed ? null : VolumeFacts.known(() -> node(0).u32be(24));
        while (at != null && at != 0) {
            progress.checkCancelled();
            if (at >= nodes || done.get((int) (long) at) || !visit(at, visitor, done, unread)) {
                at = null;
                break;
            }
            at = node(at).u32be(0);
        }
        if (at != null) {
            return new Scan(true, SectorRanges.of(unread));
        }
        BitSet map = map();
        for (long node = 1; node < nodes; node++) {
            if ((node & 0xFF) == 0) {
                progress.checkCancelled();
                progress.at(kind.word, node, nodes);
            }
            if (!done.get((int) node) && (map == null || map.get((int) node))) {
                visit(node, visitor, done, unread);
            }
        }
        return new Scan(false, SectorRanges.of(unread));
    }

    private boolean visit(long number, Leaf visitor, BitSet done, List<SectorRange> unread) {
        done.set((int) number);
        Window w = node(number);
        if (!w.isRead(0, nodeSize)) {
            w.missing(0, nodeSize).forEach(unread::add);
            return false;
        }
        int[] offsets = leaf(w) ? records(w) : null;
        if (offsets == null) {
            return false;
        }
        visitor.node(number, w, offsets);
        return true;
    }

    /** Nodes in use by the map in the header node and the map nodes after it, or null where that was not read or is not legal. */
    BitSet map() {
        return VolumeFacts.known(() -> {
            BitSet bits = new BitSet();
            long first = 0;
            long at = 0;
            for (int steps = 0; steps == 0 || at != 0; steps++) {
                Window w = node(at);
                int[] offsets = records(w);
                int record = steps == 0 ? 2 : 0;
                if (steps > 4096 || offsets == null || w.u8(8) != (steps == 0 ? HEADER : MAP) || offsets.length < record + 2) {
                    return null;
                }
                for (int i = offsets[record]; i < offsets[record + 1] && first < Math.min(MOST_NODES, nodes()); i++, first += 8) {
                    int value = w.u8(i);
                    for (int bit = 0; bit < 8; bit++) {
                        if ((value & 0x80 >> bit) != 0) {
                            bits.set((int) first + bit);
                        }
                    }
                }
                at = w.u32be(0);
                if (at >= nodes()) {
                    return null;
                }
            }
            return bits;
        });
    }
}
