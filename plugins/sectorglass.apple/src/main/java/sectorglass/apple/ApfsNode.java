package sectorglass.apple;

import sectorglass.image.Window;

/**
 * A node of an APFS B-tree: a table of places, keys after it, values counted backwards from the end. Every place is a claim. Source: Apple
 * File System Reference, "B-Trees", by way of apfs_raw.h (linux-apfs).
 */
final class ApfsNode {
    static final int ROOT = 1;
    static final int LEAF = 2;
    static final int FIXED = 4;
    private static final int DATA = 0x38;
    private static final int INFO = 40;
    private static final int NO_VALUE = 0xFFFF;

    final Window w;
    private final int flags;
    private final int count;
    private final int table;
    private final int keys;
    private final int end;
    private final int fixedKey;
    private final int fixedValue;

    private ApfsNode(Window w, int fixedKey, int fixedValue) {
        this.w = w;
        this.flags = w.u16le(0x20);
        this.count = (int) Math.min(w.length(), w.u32le(0x24));
        this.table = DATA + w.u16le(0x28);
        this.keys = table + w.u16le(0x2A);
        this.end = w.length() - ((flags & ROOT) != 0 ? INFO : 0);
        this.fixedKey = fixedKey;
        this.fixedValue = leaf() ? fixedValue : 8;
    }

    /**
     * The node; null where its table does not fit.
     *
     * @param w all of it, read
     * @param fixedKey length of keys where the node says that they have one length
     * @param fixedValue length of values of leaves then
     */
    static ApfsNode of(Window w, int fixedKey, int fixedValue) {
        ApfsNode node = new ApfsNode(w, fixedKey, fixedValue);
        long entry = (node.flags & FIXED) != 0 ? 4 : 8;
        return node.count * entry > node.keys - node.table || node.keys > node.end ? null : node;
    }

    boolean leaf() {
        return (flags & LEAF) != 0;
    }

    int level() {
        return w.u16le(0x22);
    }

    int count() {
        return count;
    }

    private boolean fixed() {
        return (flags & FIXED) != 0;
    }

    /** Offset of a key, or -1 where it reaches beyond the node. */
    int key(int i) {
        int at = keys + w.u16le(table + (fixed() ? 4 : 8) * i);
        return at + keyLength(i) > end ? -1 : at;
    }

    int keyLength(int i) {
        return fixed() ? fixedKey : w.u16le(table + 8 * i + 2);
    }

    /** Offset of a value, or -1 where there is none or it reaches out of the node. */
    int value(int i) {
        int back = w.u16le(table + (fixed() ? 4 * i + 2 : 8 * i + 4));
        int at = end - back;
        return back == NO_VALUE || at < keys || at + valueLength(i) > end ? -1 : at;
    }

    int valueLength(int i) {
        return fixed() ? fixedValue : w.u16le(table + 8 * i + 6);
    }

    /** Object id of a child, or -1. */
    long child(int i) {
        int at = value(i);
        return at < 0 || valueLength(i) < 8 ? -1 : w.u64le(at);
    }

    /** Whether all keys and values lie in the node, keys being long enough. */
    boolean legal(int leastKey) {
        for (int i = 0; i < count; i++) {
            if (key(i) < 0 || keyLength(i) < leastKey || value(i) < 0 && (!leaf() || w.u16le(table + (fixed() ? 4 * i + 2 : 8 * i + 4)) != NO_VALUE)) {
                return false;
            }
        }
        return true;
    }
}
