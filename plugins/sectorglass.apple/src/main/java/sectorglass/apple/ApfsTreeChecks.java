package sectorglass.apple;

import java.util.List;

import sectorglass.disk.VolumeHeader;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** Judges the nodes of APFS trees. Source: Apple File System Reference, "B-Trees", by way of apfs_raw.h (linux-apfs). */
final class ApfsTreeChecks {
    private final ApfsContainer container;
    private final Tally tally;
    private Mark fault;

    ApfsTreeChecks(ApfsContainer container, Checks all) {
        this.container = container;
        this.tally = new Tally(all, container.header(container.newest).whole());
    }

    /** The first node that is not sound, or null. */
    Mark fault() {
        return fault;
    }

    /** What walks judge each node with: its checksum, its id, its table and the order of its keys. */
    ApfsTree.Visitor judge(String tree, boolean files) {
        long[] last = {0, 0, 0};
        return (block, id, node) -> node(tree, files, block, id, node, last);
    }

    private void node(String tree, boolean files, long block, long id, ApfsNode node, long[] last) {
        Window w = node.w;
        VolumeHeader header = container.header(block);
        ByteRange where = header.whole();
        String name = "node in block " + block + " of " + tree;
        Mark sum = tally.check("apfs.obj.checksum", where, header.range(0, 8), () -> {
            long computed = ApfsObject.sum(w);
            return Outcome.test(computed == w.u64le(0), String.format("%016X", w.u64le(0)), String.format("%016X", computed)).with("object", name);
        });
        Mark identity = tally.check("apfs.obj.identity", where, header.range(8, 20), () -> Outcome.test(w.u64le(8) == id,
                Long.toUnsignedString(w.u64le(8)), Long.toUnsignedString(id)).with("object", name).because(sum));
        Mark table = tally.check("apfs.btree.node", where, header.range(0x20, 24), () -> Outcome.test(node.legal(files ? 8 : 16),
                name + ": keys or values reach out of the node", "all of them inside").because(sum));
        Mark order = tally.check("apfs.btree.order", where, where, () -> table.passed() ? order(node, files, name, last) : null);
        for (Mark mark : new Mark[] {sum, identity, table, order}) {
            fault = fault == null && mark != null && mark.failed() ? mark : fault;
        }
    }

    /** Keys rise in the node, and from one leaf to the next. */
    private static Outcome order(ApfsNode node, boolean files, String name, long[] last) {
        boolean started = node.leaf() && last[2] != 0;
        long high = node.leaf() ? last[0] : 0;
        long low = node.leaf() ? last[1] : 0;
        for (int i = 0; i < node.count(); i++) {
            int key = node.key(i);
            long nextHigh = files ? ApfsRecords.order(node.w, key) : node.w.u64le(key);
            long nextLow = files ? second(node, i) : node.w.u64le(key + 8);
            int order = Long.compareUnsigned(high, nextHigh);
            if (started && (order > 0 || order == 0 && Long.compareUnsigned(low, nextLow) > 0)) {
                return Outcome.failed(name + ": record " + i + " with a key below the one before", "keys that rise").at(node.w.range(key, 8));
            }
            started = true;
            high = nextHigh;
            low = nextLow;
        }
        if (node.leaf() && node.count() > 0) {
            last[0] = high;
            last[1] = low;
            last[2] = 1;
        }
        return Outcome.passed();
    }

    /** What follows id and type in the order of keys, as far as it is a number: place of an extent, hash of a name. */
    private static long second(ApfsNode node, int i) {
        int key = node.key(i);
        int type = ApfsRecords.type(node.w, key);
        return type == ApfsRecords.FILE_EXTENT && node.keyLength(i) >= 16 ? node.w.u64le(key + 8) : 0;
    }

    /** Notes sectors of a tree that were not read. */
    void unread(SectorRanges missing) {
        if (!missing.isEmpty()) {
            for (String rule : rules()) {
                tally.unread(rule, missing);
            }
        }
    }

    private static List<String> rules() {
        return List.of("apfs.btree.node", "apfs.btree.order");
    }

    /** Says what was gathered. */
    void finish() {
        tally.finish(rules(), null);
    }

    /** Walks the object map of the container. */
    void containerMap(Progress progress) {
        Window sb = container.superblock();
        if (sb.isRead(0, container.blockSize)) {
            ApfsObjectMap map = new ApfsObjectMap(container, sb.u64le(0xA0), sb.u64le(16), judge("the container's object map", false), progress);
            unread(map.unread());
        }
    }
}
