package sectorglass.ntfs;

import java.util.HashMap;
import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Phrase;

/**
 * The rules of one folder's index: blocks, the chain of entries, order, sub-nodes. What an entry leads to is judged by {@link EntryChecks}.
 * Blocks are read by the index bitmap, never by walking the tree, so that a circle in it does no harm. Sources: Linux kernel
 * fs/ntfs3/index.c; NTFS-3G libntfs-3g/index.c.
 */
final class IndexChecks {
    private static final String BLOCK = "ntfs.index.block";
    private static final String FIXUP = "ntfs.index.fixup";
    private static final String TREE = "ntfs.index.tree";
    private static final long MOST_BLOCKS = 1L << 24;

    private final FileTable table;
    private final Geometry geometry;
    private final Collation collation;
    private final EntryChecks entries;
    private final Tally tally;
    private SectorRanges missing = SectorRanges.EMPTY;
    private long folder;
    private boolean whole;
    private FileStream allocation;
    private final Map<Long, Long> parents = new HashMap<>();

    /** @param entries judges what entries lead to; null for a quick check */
    IndexChecks(FileTable table, Collation collation, EntryChecks entries, Tally tally) {
        this.table = table;
        this.geometry = table.geometry();
        this.collation = collation;
        this.entries = entries;
        this.tally = tally;
        tally.applied(BLOCK, FIXUP, TREE);
    }

    /** Sectors of index blocks that were not read. */
    SectorRanges missing() {
        return missing;
    }

    /** Judges a folder's index; true if all of it was read and its chains are whole, so that a name missing from it is missing. */
    boolean folder(long number, FileRecord file) {
        folder = number;
        whole = !file.incomplete;
        parents.clear();
        FileStream root = file.stream(AttributeType.INDEX_ROOT, DirectoryIndex.I30).orElse(null);
        allocation = file.stream(AttributeType.INDEX_ALLOCATION, DirectoryIndex.I30).filter(s -> !s.resident && s.sized).orElse(null);
        if (root == null || !root.valueWhole() || root.value.length < 0x20) {
            whole = false;
        } else {
            FixedBlock view = new FixedBlock();
            view.begin(root.value, 0, root.value.length);
            chain(view, DirectoryIndex.ROOT_HEADER, at -> new ByteRange(Math.max(0, root.valueByte) + at, 2), -1);
        }
        if (allocation != null) {
            blocks(file);
        }
        return whole;
    }

    private void blocks(FileRecord file) {
        int size = geometry.indexBytes();
        long count = Math.min(MOST_BLOCKS, Math.min(allocation.real, Math.min(MOST_BLOCKS * size, allocation.runs.readableEnd(geometry, table.image().bytes()) * geometry.clusterBytes())) / size);
        IndexBitmap used = IndexBitmap.of(table, file);
        int step = Math.max(1, (256 << 10) / size);
        FixedBlock view = new FixedBlock();
        for (long first = 0; first < count; first += step) {
            int n = (int) Math.min(step, count - first);
            if (!used.any(first, n)) {
                continue;
            }
            StreamPart part = StreamPart.read(table.image(), geometry, allocation.runs, first * size, n * size);
            for (int i = 0; i < n; i++) {
                if (used.get(first + i)) {
                    part.load(view, i * size, size);
                    block(view, first + i, part.missing(i * size, size));
                }
            }
        }
    }

    private void block(FixedBlock view, long block, SectorRanges unread) {
        int size = geometry.indexBytes();
        long offset = block * size;
        if (!unread.isEmpty()) {
            missing = missing.union(unread);
            whole = false;
        }
        if (view.fix() == FixedBlock.Fix.UNREAD) {
            whole = false;
            return;
        }
        if (view.s32(0) != FixedBlock.INDX) {
            bad(block, 0, 4, "field.signature", Show.hex(java.util.Arrays.copyOfRange(view.bytes, view.start, view.start + 4)), "49 4E 44 58 (INDX)");
            return;
        }
        if (view.fix() == FixedBlock.Fix.BAD_HEADER) {
            bad(block, 4, 4, "field.fixup-header", view.u16(4) + " / " + view.u16(6), "even offset, count " + (1 + size / FixedBlock.STRIDE));
            return;
        }
        torn(view, block);
        if (!view.has(0, 0x28)) {
            whole = false;
            return;
        }
        long vcn = offset / geometry.indexUnitBytes();
        if (view.u64(0x10) != vcn) {
            bad(block, 0x10, 8, "field.number", view.u64(0x10), vcn);
        }
        long used = view.u32(0x1C);
        long allocated = view.u32(0x20);
        if (view.u32(0x18) > used || used > allocated || allocated > size - DirectoryIndex.BLOCK_HEADER) {
            bad(block, 0x18, 12, "field.bounds", view.u32(0x18) + " / " + used + " / " + allocated, "ascending, at most "
                    + (size - DirectoryIndex.BLOCK_HEADER));
            return;
        }
        chain(view, DirectoryIndex.BLOCK_HEADER, at -> Places.range(geometry, allocation, offset + at, 2), vcn);
    }

    private void torn(FixedBlock view, long block) {
        for (int stride = 0; stride < view.size / FixedBlock.STRIDE; stride++) {
            if (view.strideTorn(stride)) {
                int at = (stride + 1) * FixedBlock.STRIDE - 2;
                whole = false;
                tally.failed(FIXUP, failure(block, at, 2, String.format(java.util.Locale.ROOT, "%04X", view.u16(at)),
                        String.format(java.util.Locale.ROOT, "%04X", view.u16(view.u16(4))), Tally.values("block", block, "stride", stride + 1)));
            }
        }
    }

    private void bad(long block, int at, int length, String field, Object stored, Object computed) {
        whole = false;
        tally.failed(BLOCK, failure(block, at, length, stored, computed, Tally.values("block", block, "field", Phrase.of(field))));
    }

    private Tally.Failure failure(long block, int at, int length, Object stored, Object computed, Map<String, Object> values) {
        int size = geometry.indexBytes();
        ByteRange structure = Places.range(geometry, allocation, block * size, size);
        return new Tally.Failure(folder, Places.range(geometry, allocation, block * size + at, length), structure, stored, computed, values,
                null, null);
    }

    /** Where a byte of the node stands in the image, for 2 bytes. */
    private interface Place {
        ByteRange of(int offset);
    }

    /** Walks the entries of one node; {@code ownVcn} is -1 for the root. */
    private void chain(FixedBlock view, int header, Place place, long ownVcn) {
        long used = header + view.u32(header + 4);
        long at = header + view.u32(header);
        long limit = Math.min(used, view.size);
        int previous = -1;
        while (true) {
            if (at > limit - 16 || at < header + 16) {
                tree(place, (int) Math.min(at, view.size - 2L), "field.end", at, "an end entry before " + used, null);
                return;
            }
            int here = (int) at;
            if (!view.has(here, 16)) {
                whole = false;
                return;
            }
            int length = view.u16(here + 8);
            int flags = view.u16(here + 12);
            boolean last = (flags & DirectoryIndex.LAST) != 0;
            int key = last ? 0 : view.u16(here + 10);
            boolean sub = (flags & DirectoryIndex.SUB_NODE) != 0;
            int least = 16 + (sub ? 8 : 0);
            if (length < least || (length & 7) != 0 || here + length > limit) {
                tree(place, here + 8, "field.length", length, "a multiple of 8, " + least + " to " + (limit - here), here);
                return;
            }
            if (sub && view.has(here + length - 8, 8)) {
                subNode(view.u64(here + length - 8), ownVcn, place, here + length - 8, here);
            }
            if (last) {
                return;
            }
            if (key < NameValue.HEAD || 16 + key > length - (sub ? 8 : 0)) {
                tree(place, here + 10, "field.key", key, NameValue.HEAD + " to " + (length - 16), here);
                return;
            }
            previous = key(view, here, key, previous, place);
            at += length;
        }
    }

    private int key(FixedBlock view, int here, int key, int previous, Place place) {
        int nameAt = here + 16 + NameValue.HEAD;
        if (!view.has(here + 16, key)) {
            whole = false;
            return -1;
        }
        int units = view.u8(here + 16 + NameValue.NAME_LENGTH);
        if (units == 0 || NameValue.HEAD + 2 * units > key) {
            tree(place, here + 10, "field.key", key, NameValue.HEAD + 2 * units, here);
            return -1;
        }
        if (previous >= 0) {
            int before = view.u8(previous + 16 + NameValue.NAME_LENGTH);
            if (collation.own() && collation.compare(view, previous + 16 + NameValue.HEAD, before, view, nameAt, units) > 0) {
                tree(place, here + 16 + NameValue.HEAD, "field.order", Show.name(view.utf16(nameAt, units)), "after "
                        + Show.name(view.utf16(previous + 16 + NameValue.HEAD, before)), here);
            }
        }
        if (entries != null) {
            entries.entry(folder, view, here, nameAt, units, place.of(here).start());
        }
        return here;
    }

    /** A sub-node must lie in the index, and no two entries may lead to one, least of all a node to itself. */
    private void subNode(long vcn, long own, Place place, int offset, int entry) {
        long unit = geometry.indexUnitBytes();
        long blocks = allocation == null ? 0 : allocation.real / geometry.indexBytes();
        long perBlock = Math.max(1, geometry.indexBytes() / unit);
        if (vcn < 0 || vcn / perBlock >= blocks || vcn % perBlock != 0) {
            tree(place, offset, "field.sub-node", vcn, "0 to " + Math.max(0, (blocks - 1) * perBlock), entry);
        } else if (vcn == own) {
            tree(place, offset, "field.sub-node", vcn, "another block than its own", entry);
        } else if (parents.putIfAbsent(vcn, own) != null) {
            tree(place, offset, "field.sub-node", vcn, "a block that no other entry leads to", entry);
        }
    }

    private void tree(Place place, int offset, String field, Object stored, Object computed, Integer entry) {
        whole = false;
        ByteRange where = place.of(Math.max(0, offset));
        tally.failed(TREE, new Tally.Failure(folder, where, where, stored, computed, Tally.values("field", Phrase.of(field), "offset",
                entry == null ? offset : entry), null, null));
    }

    /** Says what unread blocks leave open. */
    void report(Checks into, ByteRange where) {
        Map<String, SectorRanges> open = new java.util.TreeMap<>();
        if (!missing.isEmpty()) {
            open.put(BLOCK, missing);
            open.put(FIXUP, missing);
            open.put(TREE, missing);
        }
        tally.report(into, where, open);
    }
}
