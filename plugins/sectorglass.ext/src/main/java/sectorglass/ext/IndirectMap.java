package sectorglass.ext;

import java.util.HashSet;
import java.util.Set;

import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/** Reads classic block maps: 12 direct blocks, then single, double and triple indirect ones. Source: Linux kernel documentation,
 * filesystems/ext4, direct and indirect block addressing. */
final class IndirectMap {
    private static final int MOST_FAULTS = 64;

    private final Layout layout;
    private final BlockMap map = new BlockMap();
    private final Set<Long> visited = new HashSet<>();
    private final int perBlock;
    private long mapped;

    private IndirectMap(Layout layout) {
        this.layout = layout;
        this.perBlock = layout.blockSize / 4;
    }

    /** The map of an inode whose record was read. */
    static BlockMap read(Layout layout, Inode inode) {
        IndirectMap reader = new IndirectMap(layout);
        Window w = inode.window();
        for (int i = 0; i < 12; i++) {
            reader.direct(w, 0x28 + 4 * i, i, w.range());
        }
        long logical = 12;
        long span = 1;
        for (int depth = 1; depth <= 3; depth++) {
            reader.indirect(w, 0x28 + 4 * (11 + depth), logical, depth, w.range());
            span *= reader.perBlock;
            logical += span;
        }
        return reader.map;
    }

    private void direct(Window w, int at, long logical, ByteRange structure) {
        long block = w.u32le(at);
        if (block == 0) {
            return;
        }
        if (!layout.inVolume(block)) {
            fault(w, at, structure, block);
            return;
        }
        if (++mapped > layout.mostSteps()) {
            if (mapped == layout.mostSteps() + 1) {
                map.faults.add(new BlockMap.Fault("ext.extent.overlap", w.range(at, 4), structure, "more than " + layout.mostSteps() + " blocks",
                        "each block once"));
            }
            return;
        }
        map.add(logical, block, 1, false);
    }

    private void indirect(Window w, int at, long logical, int depth, ByteRange structure) {
        long block = w.u32le(at);
        if (block == 0) {
            return;
        }
        if (!layout.inVolume(block)) {
            fault(w, at, structure, block);
            return;
        }
        if (!visited.add(block)) {
            if (map.faults.size() < MOST_FAULTS) {
                map.faults.add(new BlockMap.Fault("ext.extent.overlap", w.range(at, 4), structure, "map block " + block + " once more",
                        "each map block once"));
            }
            return;
        }
        map.nodes.add(block);
        map.nodesSeen++;
        Window node = layout.read(block);
        long span = 1;
        for (int i = 1; i < depth; i++) {
            span *= perBlock;
        }
        if (!node.isRead(0, layout.blockSize)) {
            map.unread = map.unread.union(node.missing(0, layout.blockSize));
            return;
        }
        for (int i = 0; i < perBlock; i++) {
            if (depth == 1) {
                direct(node, 4 * i, logical + i, layout.block(block));
            } else {
                indirect(node, 4 * i, logical + i * span, depth - 1, layout.block(block));
            }
            if (map.faults.size() >= MOST_FAULTS || mapped > layout.mostSteps()) {
                return;
            }
        }
    }

    private void fault(Window w, int at, ByteRange structure, long block) {
        if (map.faults.size() < MOST_FAULTS) {
            map.faults.add(new BlockMap.Fault("ext.extent.range", w.range(at, 4), structure, "block " + block,
                    layout.sb.firstDataBlock() + " to " + (layout.sb.blocks() - 1)));
        }
    }
}
