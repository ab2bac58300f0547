package sectorglass.disk;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.SectorRanges;

/**
 * Collects the entries of a {@link CompactTree}. Entries may come in any order; parents may be set when all are known. What has no parent,
 * and what goes in a circle, is put under <em>Without a folder</em> when the tree is built. Not safe for several threads.
 */
public final class CompactTreeBuilder {
    /** Name of the folder of entries that no folder owns. */
    public static final String WITHOUT_FOLDER = "Without a folder";

    static final class Columns {
        int count;
        int[] parent = new int[16];
        int[] name = new int[16];
        byte[] flags = new byte[16];
        long[] bytes = new long[16];
        long[] modified = new long[16];
        long[] number = new long[16];
        /** Null while every key equals its number. */
        long[] key;
        final NamePool names = new NamePool();

        void grow() {
            resize(count + (count >> 1) + 16);
        }

        void resize(int size) {
            parent = Arrays.copyOf(parent, size);
            name = Arrays.copyOf(name, size);
            flags = Arrays.copyOf(flags, size);
            bytes = Arrays.copyOf(bytes, size);
            modified = Arrays.copyOf(modified, size);
            number = Arrays.copyOf(number, size);
            key = key == null ? null : Arrays.copyOf(key, size);
        }
    }

    private static final int NONE = -1;

    private final Columns columns = new Columns();
    private final List<String> remarks = new ArrayList<>();
    private int root = -1;
    private SectorRanges unread = SectorRanges.EMPTY;

    /**
     * Adds an entry that no folder owns yet.
     *
     * @param name as it stands
     * @param bytes length of the main stream, -1 where not known
     * @param modified when the content was changed last, or null
     * @param number the file system's own number of it, -1 where it has none
     * @param key what {@link CompactTree.Details} needs to find it again; often the number
     * @return its id
     */
    public int add(String name, boolean folder, boolean deleted, long bytes, FileStamp modified, long number, long key) {
        int id = add(name, folder, deleted, bytes, modified == null ? CompactTree.NO_TIME
                : modified.local().toInstant(modified.offset() == null ? java.time.ZoneOffset.UTC : modified.offset()).toEpochMilli(),
                number, key);
        if (modified != null && modified.offset() == null) {
            columns.flags[id] |= CompactTree.LOCAL_TIME;
        }
        return id;
    }

    /**
     * The same without objects, for a million of them.
     *
     * @param modifiedMillis milliseconds since 1970 UTC; {@link Long#MIN_VALUE} where not known
     */
    public int add(String name, boolean folder, boolean deleted, long bytes, long modifiedMillis, long number, long key) {
        int id = columns.count;
        if (id == columns.parent.length) {
            columns.grow();
        }
        columns.count++;
        columns.parent[id] = NONE;
        columns.name[id] = columns.names.add(name);
        columns.flags[id] = (byte) ((folder ? CompactTree.FOLDER : 0) | (deleted ? CompactTree.DELETED : 0));
        columns.bytes[id] = bytes;
        columns.modified[id] = modifiedMillis;
        columns.number[id] = number;
        if (columns.key == null && key != number) {
            columns.key = Arrays.copyOf(columns.number, columns.number.length);
        }
        if (columns.key != null) {
            columns.key[id] = key;
        }
        return id;
    }

    /** Number of entries so far. */
    public int size() {
        return columns.count;
    }

    /** Says which folder owns an entry; -1: none. */
    public void parent(int entry, int folder) {
        columns.parent[entry] = folder;
    }

    /** Says which folder owns an entry so far, or -1. */
    public int parent(int entry) {
        return columns.parent[entry];
    }

    /** Says which entry is the root folder. */
    public void root(int entry) {
        root = entry;
    }

    /** Adds sectors of metadata that were not read. */
    public void unread(SectorRanges sectors) {
        unread = unread.union(sectors);
    }

    /** Adds a sentence about the tree as a whole. */
    public void remark(String sentence) {
        remarks.add(sentence);
    }

    /** Builds the tree; the builder must not be used any more. */
    public CompactTree build(CompactTree.Details details) {
        if (root < 0) {
            root = add("", true, false, 0, CompactTree.NO_TIME, -1, -1);
        }
        columns.parent[root] = NONE;
        int loose = breakCircles();
        int withoutFolder = -1;
        if (loose > 0) {
            withoutFolder = add(WITHOUT_FOLDER, true, false, 0, CompactTree.NO_TIME, -1, -1);
            for (int i = 0; i < columns.count; i++) {
                if (columns.parent[i] < 0 && i != root) {
                    columns.parent[i] = i == withoutFolder ? root : withoutFolder;
                }
            }
        }
        columns.resize(columns.count);
        columns.names.trim();
        return new CompactTree(columns, root, withoutFolder, details, unread, remarks);
    }

    /** Takes the parent from one entry of every circle; gives the number of entries without a parent, the root not counted. */
    private int breakCircles() {
        byte[] seen = new byte[columns.count];
        int loose = 0;
        for (int i = 0; i < columns.count; i++) {
            int at = i;
            while (at >= 0 && seen[at] == 0) {
                seen[at] = 1;
                at = columns.parent[at];
            }
            int circle = at >= 0 && seen[at] == 1 ? at : -1;
            for (at = i; at >= 0 && seen[at] == 1; at = columns.parent[at]) {
                seen[at] = 2;
            }
            if (circle >= 0) {
                columns.parent[circle] = NONE;
            }
        }
        for (int i = 0; i < columns.count; i++) {
            if (columns.parent[i] < 0 && i != root) {
                loose++;
            }
        }
        return loose;
    }
}
