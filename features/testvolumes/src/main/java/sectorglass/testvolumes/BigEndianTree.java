package sectorglass.testvolumes;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes a B-tree file of HFS+: header node with its map, leaves, index nodes above them. Source: Apple TN1150, "B-Trees", by way of
 * hfs_format.h (xnu).
 */
final class BigEndianTree {
    private static final int HEADER_RECORD = 106;
    private static final int USER_RECORD = 128;

    /** A record; the key starts with its length. */
    record Entry(byte[] key, byte[] data) { }

    private final int nodeSize;
    private final int mostKey;
    private final long attributes;
    private final int compare;
    private final List<byte[]> nodes = new ArrayList<>();

    /**
     * @param mostKey longest key without its length field
     * @param attributes 2 for keys with a length of two bytes, 4 more where keys of index nodes vary in length
     * @param compare 0xCF or 0xBC in the catalog of HFSX, otherwise 0
     */
    BigEndianTree(int nodeSize, int mostKey, long attributes, int compare) {
        this.nodeSize = nodeSize;
        this.mostKey = mostKey;
        this.attributes = attributes;
        this.compare = compare;
    }

    /**
     * The file.
     *
     * @param entries in the order of their keys
     * @param least nodes at least
     */
    byte[] write(List<Entry> entries, int least) {
        nodes.add(new byte[nodeSize]);
        int depth = 0;
        int first = 0;
        int last = 0;
        List<Entry> level = entries;
        while (!level.isEmpty() && (depth == 0 || level.size() > 1)) {
            depth++;
            int from = nodes.size();
            level = level(level, depth);
            if (depth == 1) {
                first = from;
                last = nodes.size() - 1;
            }
        }
        int used = nodes.size();
        int root = depth == 0 ? 0 : used - 1;
        int inHeader = (nodeSize - 14 - HEADER_RECORD - USER_RECORD - 8) * 8;
        int inMap = (nodeSize - 14 - 6) / 4 * 4 * 8;
        int total = Math.max(least, used);
        int maps = 0;
        while (total + maps > inHeader + (long) maps * inMap) {
            maps++;
        }
        total = Math.max(least, used + maps);
        byte[] file = new byte[total * nodeSize];
        for (int i = 0; i < used; i++) {
            System.arraycopy(nodes.get(i), 0, file, i * nodeSize, nodeSize);
        }
        ByteBuffer w = ByteBuffer.wrap(file);
        w.putInt(0, maps > 0 ? used : 0).put(8, (byte) 1).put(9, (byte) 0).putShort(10, (short) 3);
        w.putShort(14, (short) depth).putInt(16, root).putInt(20, entries.size()).putInt(24, first).putInt(28, last)
                .putShort(32, (short) nodeSize).putShort(34, (short) mostKey).putInt(36, total).putInt(40, total - used - maps)
                .putInt(46, nodeSize).put(51, (byte) compare).putInt(52, (int) attributes);
        int map = 14 + HEADER_RECORD + USER_RECORD;
        offsets(w, 0, 14, 14 + HEADER_RECORD, map, nodeSize - 8);
        for (int i = 0; i < maps; i++) {
            int at = (used + i) * nodeSize;
            w.putInt(at, i + 1 < maps ? used + i + 1 : 0).put(at + 8, (byte) 2).putShort(at + 10, (short) 1);
            offsets(w, at, 14, 14 + inMap / 8);
        }
        for (int i = 0; i < used + maps; i++) {
            int in = i < inHeader ? i : (i - inHeader) % inMap;
            int at = i < inHeader ? map : (used + (i - inHeader) / inMap) * nodeSize + 14;
            file[at + in / 8] |= (byte) (0x80 >> in % 8);
        }
        return file;
    }

    private void offsets(ByteBuffer w, int node, int... offsets) {
        for (int i = 0; i < offsets.length; i++) {
            w.putShort(node + nodeSize - 2 * (i + 1), (short) offsets[i]);
        }
    }

    /** Writes the nodes of a level; gives the entries of the next. */
    private List<Entry> level(List<Entry> entries, int height) {
        List<Entry> above = new ArrayList<>();
        int before = 0;
        for (int i = 0; i < entries.size();) {
            byte[] node = new byte[nodeSize];
            ByteBuffer w = ByteBuffer.wrap(node);
            int number = nodes.size();
            above.add(pointer(entries.get(i).key(), number));
            int at = 14;
            int count = 0;
            while (i < entries.size()) {
                Entry entry = entries.get(i);
                int length = entry.key().length + (entry.key().length & 1) + entry.data().length;
                if (at + length + 2 * (count + 2) > nodeSize) {
                    break;
                }
                w.putShort(nodeSize - 2 * (count + 1), (short) at);
                System.arraycopy(entry.key(), 0, node, at, entry.key().length);
                System.arraycopy(entry.data(), 0, node, at + entry.key().length + (entry.key().length & 1), entry.data().length);
                at += length;
                count++;
                i++;
            }
            w.putShort(nodeSize - 2 * (count + 1), (short) at);
            w.putInt(0, i < entries.size() ? number + 1 : 0).putInt(4, before).put(8, (byte) (height == 1 ? -1 : 0)).put(9, (byte) height)
                    .putShort(10, (short) count);
            before = number;
            nodes.add(node);
        }
        return above;
    }

    private Entry pointer(byte[] key, int node) {
        byte[] whole = key;
        if ((attributes & 4) == 0) {
            whole = java.util.Arrays.copyOf(key, 2 + mostKey);
            ByteBuffer.wrap(whole).putShort(0, (short) mostKey);
        }
        return new Entry(whole, ByteBuffer.allocate(4).putInt(node).array());
    }
}
