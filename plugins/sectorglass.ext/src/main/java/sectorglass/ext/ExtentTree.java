package sectorglass.ext;

import java.util.HashSet;
import java.util.Set;

import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/** Reads extent trees. Source: Linux kernel documentation, filesystems/ext4, extent tree. */
final class ExtentTree {
    private static final int MAGIC = 0xF30A;
    private static final int DEEPEST = 5;

    private final Layout layout;
    private final Inode inode;
    private int seed;
    private boolean seeded;
    private long mapped;
    private final BlockMap map = new BlockMap();
    /** Nodes below the root; made when there is one. */
    private Set<Long> visited;
    private long next;

    private ExtentTree(Layout layout, Inode inode) {
        this.layout = layout;
        this.inode = inode;
    }

    /** The map of an inode whose record was read. */
    static BlockMap read(Layout layout, Inode inode) {
        ExtentTree tree = new ExtentTree(layout, inode);
        Window root = inode.window().sub(0x28, 60);
        tree.node(root, inode.window().range(), 4, -1, -1);
        return tree.map;
    }

    /** @param depth that the parent asks for; -1 at the root */
    private void node(Window w, ByteRange structure, int room, int depth, long firstLogical) {
        int magic = w.u16le(0);
        int entries = w.u16le(2);
        int max = w.u16le(4);
        int levels = w.u16le(6);
        map.nodesSeen++;
        if (magic != MAGIC) {
            fault("ext.extent.header", w, 0, 2, structure, String.format("magic %04X", magic), "F30A");
            return;
        }
        if (entries > max || max > room || max == 0 && depth >= 0) {
            fault("ext.extent.header", w, 2, 4, structure, entries + " entries, room for " + max, "at most " + room);
            return;
        }
        if (levels > DEEPEST || depth >= 0 && levels != depth) {
            fault("ext.extent.header", w, 6, 2, structure, "depth " + levels, depth >= 0 ? depth : "at most " + DEEPEST);
            return;
        }
        if (depth >= 0 && entries == 0) {
            fault("ext.extent.header", w, 2, 2, structure, "no entry", "at least one below the root");
            return;
        }
        for (int i = 0; i < entries && mapped <= layout.mostSteps(); i++) {
            int at = 12 + 12 * i;
            long logical = w.u32le(at);
            if (i == 0 && firstLogical >= 0 && logical != firstLogical) {
                fault("ext.extent.order", w, at, 4, structure, "first block " + logical, firstLogical);
            }
            if (logical < next) {
                fault(levels == 0 && i > 0 && logical >= w.u32le(at - 12) ? "ext.extent.overlap" : "ext.extent.order", w, at, 4, structure,
                        "file block " + logical, "at least " + next);
                continue;
            }
            if (levels == 0) {
                leaf(w, at, logical, structure);
            } else {
                index(w, at, logical, levels, structure);
            }
        }
    }

    private void leaf(Window w, int at, long logical, ByteRange structure) {
        int length = w.u16le(at + 4);
        boolean unwritten = length > 32768;
        int count = unwritten ? length - 32768 : length;
        long physical = w.u32le(at + 8) | (long) w.u16le(at + 6) << 32;
        if (count == 0) {
            fault("ext.extent.range", w, at + 4, 2, structure, "length 0", "1 to 32768");
            return;
        }
        if (!layout.inVolume(physical, count)) {
            fault("ext.extent.range", w, at + 4, 8, structure, "blocks " + physical + " to " + (physical + count - 1),
                    layout.sb.firstDataBlock() + " to " + (layout.sb.blocks() - 1));
            next = logical + count;
            return;
        }
        if (logical + count > 1L << 32) {
            fault("ext.extent.range", w, at, 6, structure, "file block " + logical + " and " + count, "below 4294967296");
            return;
        }
        next = logical + count;
        mapped += count;
        if (mapped > layout.mostSteps()) {
            fault("ext.extent.overlap", w, at, 12, structure, "more than " + layout.mostSteps() + " blocks", "each block once");
            return;
        }
        map.add(logical, physical, count, unwritten);
    }

    private void index(Window w, int at, long logical, int levels, ByteRange structure) {
        long child = w.u32le(at + 4) | (long) w.u16le(at + 8) << 32;
        if (!layout.inVolume(child)) {
            fault("ext.extent.range", w, at + 4, 6, structure, "block " + child,
                    layout.sb.firstDataBlock() + " to " + (layout.sb.blocks() - 1));
            return;
        }
        visited = visited == null ? new HashSet<>() : visited;
        if (!visited.add(child)) {
            fault("ext.extent.overlap", w, at + 4, 6, structure, "node in block " + child + " once more", "each node once");
            return;
        }
        map.nodes.add(child);
        Window node = layout.read(child);
        if (!node.isRead(0, layout.blockSize)) {
            map.unread = map.unread.union(node.missing(0, layout.blockSize));
            return;
        }
        ByteRange where = layout.block(child);
        int room = (layout.blockSize - 12) / 12;
        sum(node, where, room);
        node(node, where, room, levels - 1, logical);
    }

    private void sum(Window node, ByteRange where, int room) {
        int max = node.u16le(4);
        if (!layout.sb.sums() || node.u16le(0) != MAGIC || max > room) {
            return;
        }
        int tail = 12 + 12 * max;
        if (tail + 4 > layout.blockSize) {
            return;
        }
        if (!seeded) {
            seed = inode.seed(layout.seed);
            seeded = true;
        }
        int computed = Crc.raw(seed, node.bytes(0, tail));
        if (computed != (int) node.u32le(tail)) {
            map.faults.add(new BlockMap.Fault("ext.extent.checksum", new ByteRange(where.start() + tail, 4), where,
                    String.format("%08X", node.u32le(tail)), String.format("%08X", computed)));
        }
    }

    private void fault(String rule, Window w, int at, int length, ByteRange structure, Object stored, Object computed) {
        if (map.faults.size() < 64) {
            map.faults.add(new BlockMap.Fault(rule, w.range(at, length), structure, stored, computed));
        }
    }

    /** For messages. */
    @Override
    public String toString() {
        return "extents of inode " + inode.number();
    }
}
