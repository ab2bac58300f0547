package sectorglass.ext;

import sectorglass.disk.way.WayBuilder;
import sectorglass.image.Window;

/** Explains how a block of a file is found: down the extent tree, or through the classic map of blocks. */
final class ExtExtents {
    private static final int MAP = 0x28;
    private static final int DEEPEST = 6;

    private final Layout layout;
    private final long start;

    ExtExtents(Layout layout, long start) {
        this.layout = layout;
        this.start = start;
    }

    /** Adds to the step of the inode, and further ones for nodes of the tree. */
    void explain(WayBuilder way, Inode inode, long logical) {
        if (!inode.has(Inode.EXTENTS)) {
            classic(way, inode, logical);
            return;
        }
        Window node = inode.window().sub(MAP, 60);
        for (int level = 0; level < DEEPEST; level++) {
            int entries = node.u16le(2);
            if (node.u16le(0) != 0xF30A || 12 + 12 * entries > node.length()) {
                throw way.stop("extents");
            }
            way.number("entries", node, 2, 2);
            long depth = way.number("depth", node, 6, 2);
            int at = entry(node, entries, logical);
            if (at < 0) {
                throw way.stop("hole", logical);
            }
            long first = way.number("logical", node, at, 4);
            if (depth == 0) {
                leaf(way, node, at, first, logical);
                return;
            }
            long child = node.u32le(at + 4) | (long) node.u16le(at + 8) << 32;
            way.read("child", node.range(at + 4, 6), node.bytes(at + 4, 6), child);
            check(way, child);
            way.next(block(way, child));
            node = layout.read(child);
            way.step("node", node.range(), "ext_extent_node", level + 1);
        }
        throw way.stop("extents");
    }

    private static int entry(Window node, int entries, long logical) {
        int found = -1;
        for (int i = 0; i < entries && node.u32le(12 + 12 * i) <= logical; i++) {
            found = 12 + 12 * i;
        }
        return found;
    }

    private void leaf(WayBuilder way, Window node, int at, long first, long logical) {
        int length = node.u16le(at + 4);
        way.read("length", node.range(at + 4, 2), node.bytes(at + 4, 2), length > 32768 ? length - 32768 : length);
        long physical = node.u32le(at + 8) | (long) node.u16le(at + 6) << 32;
        way.read("physical", node.range(at + 6, 6), node.bytes(at + 6, 6), physical);
        if (logical - first >= (length > 32768 ? length - 32768 : length) || length > 32768) {
            throw way.stop("hole", logical);
        }
        long block = physical + logical - first;
        check(way, block);
        if (logical > first) {
            way.sum("in-run", physical + " + " + logical + " − " + first, block);
        }
        way.next(block(way, block));
    }

    private void classic(WayBuilder way, Inode inode, long logical) {
        int per = layout.blockSize / 4;
        Window node = inode.window();
        int at = MAP + 4 * (int) Math.min(11, logical);
        long rest = logical - 12;
        int depth = 0;
        long span = 1;
        while (rest >= 0 && depth < 3) {
            depth++;
            span *= per;
            at = MAP + 4 * (11 + depth);
            if (rest < span) {
                break;
            }
            rest -= span;
        }
        for (int level = 0; ; level++) {
            long block = way.number(level < depth ? "map-block" : "direct", node, at, 4);
            if (block == 0) {
                throw way.stop("hole", logical);
            }
            check(way, block);
            way.next(block(way, block));
            if (level == depth) {
                return;
            }
            span /= per;
            at = (int) (rest / span) * 4;
            rest %= span;
            node = layout.read(block);
            way.step("map", node.range(), null, level + 1);
        }
    }

    private void check(WayBuilder way, long block) {
        if (!layout.inVolume(block)) {
            throw way.stop("block", block);
        }
    }

    private long block(WayBuilder way, long number) {
        return way.sum("block", start + " + " + number + " × " + layout.blockSize, layout.block(number).start());
    }
}
