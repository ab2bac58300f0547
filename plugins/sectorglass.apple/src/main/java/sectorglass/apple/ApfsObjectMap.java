package sectorglass.apple;

import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/**
 * Where the virtual objects of a container or volume stand: for each id the largest transaction up to the one wanted. Source: Apple File
 * System Reference, "Object Maps", by way of apfs_raw.h (linux-apfs).
 */
final class ApfsObjectMap {
    /** Block of the root of the map's tree, in the head of the map. */
    private static final int ROOT = 0x30;
    private static final int DELETED = 1;
    private static final int ENCRYPTED = 4;

    private final IdIndex ids = new IdIndex();
    private final LongList blocks = new LongList();
    private final LongList nodes = new LongList();
    private final ApfsTree tree;
    private final SectorRanges head;
    private boolean encrypted;

    /**
     * @param block block of the object map
     * @param transaction largest one that counts
     */
    ApfsObjectMap(ApfsContainer container, long block, long transaction, ApfsTree.Visitor visitor, Progress progress) {
        Window w = container.header(block).inside() ? container.header(block).window() : null;
        head = w == null ? SectorRanges.EMPTY : w.missing(ROOT, 8);
        long root = w != null && head.isEmpty() ? w.u64le(ROOT) : -1;
        tree = new ApfsTree(container, root, id -> id, 16, 16);
        tree.walk((at, id, node) -> {
            visitor.node(at, id, node);
            nodes.add(at);
            if (node.leaf()) {
                leaf(node, transaction);
            }
        }, progress);
    }

    private void leaf(ApfsNode node, long transaction) {
        for (int i = 0; i < node.count(); i++) {
            int key = node.key(i);
            int value = node.value(i);
            if (key < 0 || value < 0 || node.keyLength(i) < 16 || node.valueLength(i) < 16
                    || Long.compareUnsigned(node.w.u64le(key + 8), transaction) > 0) {
                continue;
            }
            long id = node.w.u64le(key);
            int flags = (int) node.w.u32le(value);
            long block = (flags & DELETED) != 0 ? -1 : node.w.u64le(value + 8);
            encrypted |= (flags & ENCRYPTED) != 0;
            if (ids.endsWith(id)) {
                blocks.set(blocks.size() - 1, block);
            } else {
                ids.add(id);
                blocks.add(block);
            }
        }
    }

    /** Block of an object, or -1 where the map, as far as it was read, has none. */
    long block(long id) {
        int place = ids.find(id);
        return place < 0 ? -1 : blocks.get(place);
    }

    /** Number of objects. */
    int size() {
        return ids.size();
    }

    /** Block of an object by its place in the order of ids; -1 where it was deleted. */
    long blockAt(int place) {
        return blocks.get(place);
    }

    /** Blocks of the map's own nodes. */
    LongList nodes() {
        return nodes;
    }

    /** Whether some object is stored encrypted. */
    boolean encrypted() {
        return encrypted;
    }

    /** Whether the whole map was read and could be used. */
    boolean whole() {
        return !tree.damaged() && unread().isEmpty();
    }

    SectorRanges unread() {
        return head.union(tree.unread());
    }
}
