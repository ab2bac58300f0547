package sectorglass.testvolumes;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongSupplier;

/**
 * Writes nodes of an APFS B-tree: leaves, and index nodes above them where they do not fit one node. Source: Apple File System Reference,
 * "B-Trees", by way of apfs_raw.h (linux-apfs).
 */
final class LittleEndianTree {
    private static final int DATA = 0x38;
    private static final int INFO = 40;
    private static final int STEP = 8;

    record Entry(byte[] key, byte[] value) { }

    /** A node: its object id and bytes, whose checksum is still missing. */
    record Node(long id, byte[] bytes) { }

    private final int size;
    private final int type;
    private final int subtype;
    private final boolean fixed;
    private final byte[] oldRoot;

    /**
     * @param oldRoot the root as it was: its id, transaction, kind and tree flags stay
     * @param fixed whether keys and values have one length each
     */
    LittleEndianTree(byte[] oldRoot, boolean fixed) {
        ByteBuffer w = wrap(oldRoot);
        this.oldRoot = oldRoot;
        this.size = oldRoot.length;
        this.type = w.getInt(24);
        this.subtype = w.getInt(28);
        this.fixed = fixed;
    }

    static ByteBuffer wrap(byte[] bytes) {
        return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    private int room(boolean root) {
        return size - DATA - (root ? INFO : 0) - (fixed ? 4 : 24) * STEP;
    }

    /** Bytes of the table of places: fixed records have room for a full node, others for a multiple of some. */
    private int table(int entries, int level) {
        if (!fixed) {
            return Math.max(2 * STEP, (entries + STEP - 1) / STEP * STEP) * 8;
        }
        int record = 16 + (level == 0 ? 16 : 8) + 4;
        return (size - DATA) / record * 4;
    }

    private int takes(Entry entry) {
        return entry.key().length + entry.value().length + (fixed ? 4 : 8);
    }

    /**
     * The nodes, the root first.
     *
     * @param ids gives the object id of each further node
     */
    List<Node> write(List<Entry> entries, LongSupplier ids) {
        List<Node> nodes = new ArrayList<>();
        List<Entry> top = entries;
        int level = 0;
        while (top.stream().mapToInt(this::takes).sum() > room(true)) {
            List<Entry> above = new ArrayList<>();
            for (List<Entry> part : parts(top)) {
                long id = ids.getAsLong();
                nodes.add(new Node(id, node(part, id, level, false)));
                above.add(new Entry(part.get(0).key(), wrap(new byte[8]).putLong(0, id).array()));
            }
            top = above;
            level++;
        }
        byte[] root = node(top, wrap(oldRoot).getLong(8), level, true);
        int info = size - INFO;
        System.arraycopy(oldRoot, info, root, info, 16);
        wrap(root).putInt(info + 16, Math.max(wrap(oldRoot).getInt(info + 16), entries.stream().mapToInt(e -> e.key().length).max().orElse(0)))
                .putInt(info + 20, Math.max(wrap(oldRoot).getInt(info + 20), entries.stream().mapToInt(e -> e.value().length).max().orElse(0)))
                .putLong(info + 24, entries.size()).putLong(info + 32, nodes.size() + 1L);
        nodes.add(0, new Node(wrap(oldRoot).getLong(8), root));
        return nodes;
    }

    private List<List<Entry>> parts(List<Entry> entries) {
        List<List<Entry>> parts = new ArrayList<>();
        int left = -1;
        for (Entry entry : entries) {
            if (left < takes(entry)) {
                parts.add(new ArrayList<>());
                left = room(false);
            }
            parts.get(parts.size() - 1).add(entry);
            left -= takes(entry);
        }
        return parts;
    }

    private byte[] node(List<Entry> entries, long id, int level, boolean root) {
        byte[] bytes = new byte[size];
        ByteBuffer w = wrap(bytes);
        int toc = table(entries.size(), level);
        w.putLong(8, id).putLong(16, wrap(oldRoot).getLong(16)).putInt(24, root ? type : type & 0xFFFF0000 | 3).putInt(28, subtype);
        w.putShort(0x20, (short) ((root ? 1 : 0) | (level == 0 ? 2 : 0) | (fixed ? 4 : 0))).putShort(0x22, (short) level)
                .putInt(0x24, entries.size()).putShort(0x28, (short) 0).putShort(0x2A, (short) toc);
        int key = 0;
        int value = 0;
        int end = size - (root ? INFO : 0);
        int keys = DATA + toc;
        for (int i = 0; i < entries.size(); i++) {
            Entry e = entries.get(i);
            System.arraycopy(e.key(), 0, bytes, keys + key, e.key().length);
            value += e.value().length;
            System.arraycopy(e.value(), 0, bytes, end - value, e.value().length);
            if (fixed) {
                w.putShort(DATA + 4 * i, (short) key).putShort(DATA + 4 * i + 2, (short) value);
            } else {
                w.putShort(DATA + 8 * i, (short) key).putShort(DATA + 8 * i + 2, (short) e.key().length)
                        .putShort(DATA + 8 * i + 4, (short) value).putShort(DATA + 8 * i + 6, (short) e.value().length);
            }
            key += e.key().length;
        }
        w.putShort(0x2C, (short) key).putShort(0x2E, (short) (end - value - keys - key)).putInt(0x30, 0x0000FFFF).putInt(0x34, 0x0000FFFF);
        return bytes;
    }
}
