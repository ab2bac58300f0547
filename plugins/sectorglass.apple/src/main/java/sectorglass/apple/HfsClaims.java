package sectorglass.apple;

import java.util.function.IntConsumer;

import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** Which blocks the files, trees and headers of an HFS+ volume say they own. Source: Apple TN1150 by way of hfs_format.h (xnu). */
final class HfsClaims implements HfsTree.Leaf {
    /** Owner of the blocks of both volume headers. */
    static final long HEADERS = 0;
    /** Kind of a claim by an attribute; 0 is a data fork, 0xFF a resource fork. */
    static final int ATTRIBUTE = 1;
    /** More extents than are compared. */
    private static final int MOST = 1 << 24;

    private final HfsLayout layout;
    private final LongList starts = new LongList();
    private final LongList counts = new LongList();
    private final LongList owners = new LongList();
    private final LongList offsets = new LongList();
    private int[] order;
    private long longest;

    HfsClaims(HfsLayout layout) {
        this.layout = layout;
    }

    /** First of the blocks that hold the last 1,024 bytes of all blocks: the place of the alternate header on most volumes. */
    long tail() {
        long head = (1024 + 512 + layout.blockSize - 1) / layout.blockSize;
        return Math.max(head, Math.max(0, layout.blocks * layout.blockSize - 1024) / layout.blockSize);
    }

    /** Whether the alternate header stands in the last blocks; a volume may end some sectors after them. */
    boolean alternateInTail() {
        long at = layout.place.start() + layout.blocks * layout.blockSize - 1024;
        return layout.site.has(at, 512) && HfsPlus.signature(layout.site.window(at, 512));
    }

    /** Adds headers, trees, allocation and startup file and bad blocks. */
    void system() {
        add(0, (1024 + 512 + layout.blockSize - 1) / layout.blockSize, HEADERS, 0, 0);
        if (alternateInTail()) {
            add(tail(), Math.max(0, layout.blocks - tail()), HEADERS, 0, 0);
        }
        for (HfsTree.Kind kind : HfsTree.Kind.values()) {
            add(layout.fork(kind), kind.id, 0);
        }
        add(layout.allocation(), 6, 0);
        add(layout.overflow().fork(layout.header, HfsLayout.STARTUP, 7, 0), 7, 0);
        add(layout.overflow().badBlocks(), HfsOverflow.BAD_BLOCKS, 0);
    }

    /** Adds both forks of a file's record. */
    void file(Window w, int data, long id) {
        add(layout.overflow().fork(w, data + 88, id, 0), id, 0);
        add(layout.overflow().fork(w, data + 168, id, 0xFF), id, 0xFF);
    }

    /** Adds all files of the catalog and all attributes; gives whether every record was seen. */
    boolean files(Progress progress) {
        HfsTree catalog = layout.tree(HfsTree.Kind.CATALOG);
        boolean whole = catalog != null && catalog.scan((number, w, offsets) -> {
            for (int i = 0; i + 1 < offsets.length; i++) {
                int data = HfsKeys.record(w, offsets[i], offsets[i + 1]);
                if (HfsCensus.type(w, data, offsets[i + 1]) == HfsCensus.FILE) {
                    file(w, data, w.u32be(data + 8));
                }
            }
        }, progress).whole();
        return attributes(progress) && whole;
    }

    /** Adds attributes that have blocks of their own; gives whether every record was seen. */
    boolean attributes(Progress progress) {
        HfsTree tree = layout.tree(HfsTree.Kind.ATTRIBUTES);
        if (tree == null) {
            return layout.fork(HfsTree.Kind.ATTRIBUTES).bytes() == 0;
        }
        return tree.scan(this, progress).whole();
    }

    /** Takes a leaf of the attributes tree. */
    @Override
    public void node(long number, Window w, int[] offsets) {
        for (int i = 0; i + 1 < offsets.length; i++) {
            attribute(w, offsets[i], offsets[i + 1]);
        }
    }

    private void attribute(Window w, int key, int end) {
        if (!HfsKeys.legal(HfsTree.Kind.ATTRIBUTES, w, key, end)) {
            return;
        }
        int data = HfsKeys.data(w, key);
        long type = data + 4 <= end ? w.u32be(data) : 0;
        HfsFork none = new HfsFork(0, layout.blockSize, new long[0], new long[0]);
        if (type == 0x20 && data + 8 + HfsFork.LENGTH <= end) {
            add(none.more(w, data + 8 + 16), w.u32be(key + 4), ATTRIBUTE);
        } else if (type == 0x30 && data + 8 + 64 <= end) {
            add(none.more(w, data + 8), w.u32be(key + 4), ATTRIBUTE);
        }
    }

    /** Adds a fork. */
    void add(HfsFork fork, long id, int kind) {
        for (int i = 0; i < fork.starts().length && starts.size() < MOST; i++) {
            add(fork.starts()[i], fork.count(i), id, kind, fork.ends()[i] - fork.count(i));
        }
    }

    private void add(long start, long count, long id, int kind, long offset) {
        if (count > 0) {
            starts.add(start);
            counts.add(count);
            owners.add(id << 8 | kind);
            offsets.add(offset);
            longest = Math.max(longest, count);
        }
    }

    /** Whether there were more extents than are compared. */
    boolean tooMany() {
        return starts.size() >= MOST;
    }

    /** Puts the claims in order of their blocks; nothing may be added any more. */
    void sort() {
        long[] keys = new long[starts.size()];
        for (int i = 0; i < keys.length; i++) {
            keys[i] = starts.get(i) << 31 | i;
        }
        java.util.Arrays.sort(keys);
        order = new int[keys.length];
        for (int i = 0; i < keys.length; i++) {
            order[i] = (int) (keys[i] & Integer.MAX_VALUE);
        }
    }

    int size() {
        return starts.size();
    }

    /** First block of a claim, by its place in the order. */
    long start(int place) {
        return starts.get(order[place]);
    }

    long count(int place) {
        return counts.get(order[place]);
    }

    /** Id of the file that claims. */
    long id(int place) {
        return owners.get(order[place]) >>> 8;
    }

    /** Which fork claims: 0, 0xFF or {@link #ATTRIBUTE}. */
    int kind(int place) {
        return (int) (owners.get(order[place]) & 0xFF);
    }

    /** Block of the fork that stands at the first block. */
    long offset(int place) {
        return offsets.get(order[place]);
    }

    /** Visits the claims that touch blocks, in their order. */
    void touching(long block, long end, IntConsumer visitor) {
        int low = 0;
        int high = order.length;
        while (low < high) {
            int middle = low + high >>> 1;
            if (start(middle) < block - longest) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        for (int i = low; i < order.length && start(i) < end; i++) {
            if (start(i) + count(i) > block) {
                visitor.accept(i);
            }
        }
    }

    /** Who claims, in words. */
    String owner(int place) {
        long id = id(place);
        if (id == HEADERS) {
            return "a volume header";
        }
        String file = switch ((int) Math.min(id, 16)) {
            case 3 -> "the extents tree";
            case 4 -> "the catalog";
            case 5 -> "the bad blocks";
            case 6 -> "the allocation file";
            case 7 -> "the startup file";
            case 8 -> "the attributes tree";
            default -> "file " + id;
        };
        return (kind(place) == ATTRIBUTE ? "an attribute of " : kind(place) == 0xFF ? "the resource fork of " : "") + file;
    }

    /** Sectors of trees, headers and special files. */
    SectorRanges metadata() {
        java.util.List<sectorglass.image.SectorRange> all = new java.util.ArrayList<>();
        for (int i = 0; i < size(); i++) {
            if (id(i) < 16 && id(i) != HfsOverflow.BAD_BLOCKS && kind(i) == 0 && start(i) + count(i) <= layout.blocks) {
                all.add(layout.sectors(start(i), count(i)));
            }
        }
        return SectorRanges.of(all);
    }
}
