package sectorglass.filetest;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;

import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/** Walks over the pages of a database: each belongs to exactly one tree, chain or list. Source: SQLite, "Database File Format". */
final class SqliteTrees {
    private static final int INTERIOR_INDEX = 2;
    private static final int INTERIOR_TABLE = 5;
    private static final int LEAF_INDEX = 10;
    private static final int LEAF_TABLE = 13;
    private static final long LOCK_BYTE = 1L << 30;

    private final TestedFile file;
    private final int pageSize;
    private final int usable;
    private final int pages;
    private final BitSet seen = new BitSet();
    private final List<Long> roots = new ArrayList<>();

    /** A page is not as it should be. */
    static final class Wrong extends IOException {
        private static final long serialVersionUID = 1L;
        private final long at;

        Wrong(long at, String what) {
            super(what);
            this.at = at;
        }

        long at() {
            return at;
        }
    }

    SqliteTrees(TestedFile file, int pageSize, int usable, int pages) {
        this.file = file;
        this.pageSize = pageSize;
        this.usable = usable;
        this.pages = pages;
    }

    TestResult test() throws IOException {
        boolean vacuum = file.big(52, 4) != 0;
        tree(1, true);
        for (long root : List.copyOf(roots)) {
            tree(root, false);
        }
        freelist();
        for (int page = 1; page <= pages; page++) {
            boolean pointerMap = vacuum && page > 1 && (page - 2) % (usable / 5 + 1) == 0;
            boolean lock = (page - 1L) * pageSize == LOCK_BYTE;
            if (!seen.get(page) && !pointerMap && !lock) {
                throw new Wrong(place(page), "page " + page + " belongs to nothing");
            }
        }
        return TestResult.sound();
    }

    private long place(long page) {
        return (page - 1) * pageSize;
    }

    private void take(long page, long from) throws Wrong {
        if (page < 1 || page > pages || seen.get((int) page)) {
            throw new Wrong(from, "page " + page + (page < 1 || page > pages ? " does not exist" : " is used twice"));
        }
        seen.set((int) page);
    }

    private record Step(long page, int depth) { }

    private void tree(long root, boolean schema) throws IOException {
        Deque<Step> open = new ArrayDeque<>();
        take(root, 0);
        open.push(new Step(root, 0));
        int leafDepth = -1;
        while (!open.isEmpty()) {
            file.checkTime();
            Step step = open.pop();
            byte[] page = file.bytes(place(step.page()), pageSize);
            int head = step.page() == 1 ? 100 : 0;
            int kind = page[head] & 0xFF;
            boolean interior = kind == INTERIOR_INDEX || kind == INTERIOR_TABLE;
            if (!interior && kind != LEAF_INDEX && kind != LEAF_TABLE || step.depth() > 60) {
                throw new Wrong(place(step.page()), "page of kind " + kind);
            }
            if (!interior) {
                if (leafDepth >= 0 && leafDepth != step.depth()) {
                    throw new Wrong(place(step.page()), "leaf at another depth");
                }
                leafDepth = step.depth();
            }
            for (long child : new Cells(page, head, kind, step.page(), schema).test()) {
                take(child, place(step.page()));
                open.push(new Step(child, step.depth() + 1));
            }
        }
    }

    private void freelist() throws IOException {
        long trunk = file.big(32, 4);
        long count = file.big(36, 4);
        long found = 0;
        while (trunk != 0) {
            file.checkTime();
            take(trunk, 32);
            long leaves = file.big(place(trunk) + 4, 4);
            if (leaves > usable / 4 - 2) {
                throw new Wrong(place(trunk), leaves + " free pages");
            }
            for (long i = 0; i < leaves; i++) {
                take(file.big(place(trunk) + 8 + i * 4, 4), place(trunk));
            }
            found += leaves + 1;
            trunk = file.big(place(trunk), 4);
        }
        if (found != count) {
            throw new Wrong(36, "free pages " + count + " / " + found);
        }
    }

    /** The cells of one page. */
    private final class Cells {
        private final byte[] page;
        private final int head;
        private final int kind;
        private final long number;
        private final boolean schema;
        private int at;

        Cells(byte[] page, int head, int kind, long number, boolean schema) {
            this.page = page;
            this.head = head;
            this.kind = kind;
            this.number = number;
            this.schema = schema;
        }

        List<Long> test() throws IOException {
            List<Long> children = new ArrayList<>();
            boolean interior = kind == INTERIOR_INDEX || kind == INTERIOR_TABLE;
            int cells = two(head + 3);
            int content = two(head + 5) == 0 ? 65536 : two(head + 5);
            int pointers = head + (interior ? 12 : 8);
            if (pointers + 2 * cells > content || content > usable || page[head + 7] < 0 && (page[head + 7] & 0xFF) > 60) {
                throw wrong("cells " + cells);
            }
            BitSet used = new BitSet();
            long before = Long.MIN_VALUE;
            for (int i = 0; i < cells; i++) {
                int start = two(pointers + 2 * i);
                if (start < content || start > usable - 4) {
                    throw wrong("cell " + i);
                }
                at = start;
                long child = interior ? four() : 0;
                if (interior) {
                    children.add(child);
                }
                long payload = kind == INTERIOR_TABLE ? 0 : varint();
                if (kind == LEAF_TABLE || kind == INTERIOR_TABLE) {
                    long key = varint();
                    if (key < before || key == before && kind == LEAF_TABLE) {
                        throw wrong("keys out of order");
                    }
                    before = key;
                }
                int end = kind == INTERIOR_TABLE ? at : payload(payload);
                int last = Math.max(end, start + 4);
                if (last > usable || used.nextSetBit(start) >= 0 && used.nextSetBit(start) < last) {
                    throw wrong("cell " + i + " overlaps");
                }
                used.set(start, last);
            }
            if (interior) {
                at = head + 8;
                children.add(four());
            }
            return free(used, children);
        }

        /** Free blocks lie between cells, and what neither covers is the fragments that the header counts. */
        private List<Long> free(BitSet used, List<Long> children) throws Wrong {
            int content = two(head + 5) == 0 ? 65536 : two(head + 5);
            int block = two(head + 1);
            while (block != 0) {
                if (block < content || block > usable - 4 || two(block + 2) < 4 || block + two(block + 2) > usable
                        || used.nextSetBit(block) >= 0 && used.nextSetBit(block) < block + two(block + 2)
                        || two(block) != 0 && two(block) <= block) {
                    throw wrong("free block");
                }
                used.set(block, block + two(block + 2));
                block = two(block);
            }
            int fragments = usable - Math.min(content, usable) - used.cardinality();
            if (fragments != (page[head + 7] & 0xFF)) {
                throw wrong("fragments " + (page[head + 7] & 0xFF) + " / " + fragments);
            }
            return children;
        }

        /** End of the cell's part in this page; follows the pages of the rest. */
        private int payload(long payload) throws IOException {
            if (payload < 0 || payload > file.bytes()) {
                throw wrong("payload " + payload);
            }
            int most = kind == LEAF_TABLE ? usable - 35 : (usable - 12) * 64 / 255 - 23;
            int least = (usable - 12) * 32 / 255 - 23;
            int local = (int) payload;
            if (payload > most) {
                int rest = least + (int) ((payload - least) % (usable - 4));
                local = rest <= most ? rest : least;
            }
            if (at + local > usable) {
                throw wrong("payload " + payload);
            }
            record(at, at + local, payload);
            at += local;
            if (payload > most) {
                chain(four(), payload - local);
            }
            return at;
        }

        private void chain(long first, long bytes) throws IOException {
            long next = first;
            for (long left = bytes; left > 0; left -= usable - 4) {
                file.checkTime();
                take(next, place(number));
                next = file.big(place(next), 4);
            }
            if (next != 0) {
                throw wrong("overflow chain too long");
            }
        }

        /** The header of a record must fit it, and the sizes of its values with it; of the schema, the root page is kept. */
        private void record(int from, int end, long payload) throws Wrong {
            int keep = at;
            at = from;
            long header = varint();
            if (header < 1 || header > payload || at > end) {
                throw wrong("record header");
            }
            long values = header;
            List<Long> types = new ArrayList<>();
            while (at < from + header && at < end) {
                long type = varint();
                if (type < 0 || type == 10 || type == 11) {
                    throw wrong("value type " + type);
                }
                values += size(type);
                if (types.size() < 8) {
                    types.add(type);
                }
            }
            if (from + header <= end && values != payload) {
                throw wrong("record of " + payload + " bytes");
            }
            if (schema && kind == LEAF_TABLE && types.size() > 3 && types.get(3) >= 0 && types.get(3) < 10) {
                long place = from + header + size(types.get(0)) + size(types.get(1)) + size(types.get(2));
                long root = types.get(3) == 9 ? 1 : 0;
                int length = types.get(3) > 7 ? 0 : (int) size(types.get(3));
                for (int i = 0; i < length && place + i < end; i++) {
                    root = root << 8 | page[(int) place + i] & 0xFF;
                }
                if (root > 0) {
                    roots.add(root);
                }
            }
            at = keep;
        }

        private long size(long type) {
            return type >= 12 ? (type - 12) / 2 : new int[] {0, 1, 2, 3, 4, 6, 8, 8, 0, 0, 0, 0}[(int) type];
        }

        private int two(int place) {
            return (page[place] & 0xFF) << 8 | page[place + 1] & 0xFF;
        }

        private long four() throws Wrong {
            if (at > page.length - 4) {
                throw wrong("cell");
            }
            long value = (long) two(at) << 16 | two(at + 2);
            at += 4;
            return value;
        }

        private long varint() throws Wrong {
            long value = 0;
            for (int i = 0; i < 9; i++) {
                if (at >= page.length) {
                    throw wrong("number");
                }
                int b = page[at++] & 0xFF;
                if (i == 8) {
                    return value << 8 | b;
                }
                value = value << 7 | b & 127;
                if (b < 128) {
                    return value;
                }
            }
            return value;
        }

        private Wrong wrong(String what) {
            return new Wrong(place(number), what);
        }
    }
}
