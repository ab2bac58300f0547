package sectorglass.apple;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

import sectorglass.disk.VolumeHeader;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Walks the leaf chain of the catalog and judges nodes, order, threads and counts. Source: Apple TN1150 by way of hfs_format.h. */
final class HfsLeaves {
    private final HfsCatalog catalog;
    private final Checks all;
    private final Window volumeHeader;
    private final Map<Long, Long> valence = new HashMap<>();
    private final Map<Long, Long> children = new HashMap<>();
    private final Map<Long, ByteRange> folders = new HashMap<>();
    private final Set<Long> threads = new HashSet<>();
    private final Set<Long> used = new HashSet<>();
    private long files;
    private long folderCount;
    private long records;
    private long lastParent = -1;
    private boolean whole = true;
    private SectorRanges missing = SectorRanges.EMPTY;
    private Mark fault;

    HfsLeaves(HfsCatalog catalog, Checks all, Window volumeHeader) {
        this.catalog = catalog;
        this.all = all;
        this.volumeHeader = volumeHeader;
    }

    void check() {
        long previous = 0;
        long at = catalog.header.u32be(24);
        long steps = 0;
        while (at != 0) {
            if (at >= catalog.nodes() || steps++ > catalog.nodes()) {
                fault = all.in(catalog.range(0)).report("hfs.btree.chain", catalog.range(Math.min(at, previous)),
                        Outcome.failed("node " + at, at >= catalog.nodes() ? "at most " + (catalog.nodes() - 1) : "each node once"));
                return;
            }
            long node = at;
            long before = previous;
            Window w = catalog.node(at);
            ByteRange where = catalog.range(at);
            Checks out = all.in(where);
            int[][] offsets = new int[1][];
            Mark sound = out.check("hfs.btree.node", where, () -> {
                offsets[0] = HfsCatalog.records(w);
                return Outcome.test(w.u8(8) == 0xFF && w.u8(9) == 1 && offsets[0] != null,
                        "kind " + w.u8(8) + ", level " + w.u8(9), "kind 255, level 1, records in order");
            });
            if (!w.isRead(0, w.length())) {
                whole = false;
                missing = missing.union(w.missing(0, w.length()));
            }
            if (!sound.passed()) {
                if (!missing.isEmpty()) {
                    totals();
                }
                whole = false;
                fault = sound;
                return;
            }
            out.check("hfs.btree.chain", new ByteRange(where.start() + 4, 4),
                    () -> Outcome.test(w.u32be(4) == before, w.u32be(4), before));
            out.check("hfs.btree.order", where, () -> order(w, offsets[0], node));
            previous = at;
            at = w.u32be(0);
        }
        totals();
    }

    private Outcome order(Window w, int[] offsets, long node) {
        w.require(0, w.length());
        for (int i = 0; i + 1 < offsets.length; i++) {
            int key = offsets[i];
            int length = w.u16be(key);
            int data = key + 2 + length + (length & 1);
            if (length < 6 || length > 516 || data + 8 > offsets[i + 1] || w.u16be(key + 6) * 2 + 6 > length) {
                whole = false;
                return Outcome.failed("key of " + length + " bytes", "6 to 516, inside the record").with("node", node);
            }
            long parent = w.u32be(key + 2);
            if (parent < lastParent) {
                whole = false;
                return Outcome.failed("parent " + parent, "at least " + lastParent).with("node", node);
            }
            lastParent = parent;
            record(w, key, data, offsets[i + 1]);
        }
        return Outcome.passed();
    }

    private void record(Window w, int key, int data, int end) {
        records++;
        long parent = w.u32be(key + 2);
        int type = w.u16be(data);
        if (type == 1 && data + 88 <= end) {
            long id = w.u32be(data + 8);
            folderCount++;
            used.add(id);
            valence.put(id, w.u32be(data + 4));
            folders.put(id, w.range(data, 88));
            children.merge(parent, 1L, Long::sum);
        } else if (type == 2 && data + 248 <= end) {
            files++;
            used.add(w.u32be(data + 8));
            children.merge(parent, 1L, Long::sum);
        } else if (type == 3 || type == 4) {
            threads.add(parent);
        }
    }

    private void totals() {
        ByteRange head = catalog.range(0);
        if (!whole && missing.isEmpty()) {
            return;
        }
        all.in(head).check("hfs.btree.map", new ByteRange(head.start() + 20, 4), () -> !missing.isEmpty() ? Outcome.unread(missing) : Outcome.test(
                catalog.header.u32be(20) == records, catalog.header.u32be(20), records));
        if (!whole || fault != null) {
            return;
        }
        VolumeHeader vh = new VolumeHeader(catalog.site, catalog.place.start() + 1024, 512);
        Checks out = all.in(vh.whole());
        out.check("hfs.vh.counts", vh.range(32, 8), () -> Outcome.test(volumeHeader.u32be(32) == files
                && volumeHeader.u32be(36) == folderCount - 1, volumeHeader.u32be(32) + " files, " + volumeHeader.u32be(36)
                + " folders", files + " files, " + (folderCount - 1) + " folders"));
        long highest = used.stream().mapToLong(Long::longValue).max().orElse(0);
        out.check("hfs.catalog.next-id", vh.range(64, 4), () -> (volumeHeader.u32be(4) & 0x1000) != 0 ? null
                : Outcome.test(volumeHeader.u32be(64) > highest, volumeHeader.u32be(64), "more than " + highest));
        valence.forEach((id, stored) -> all.in(folders.get(id)).check("hfs.catalog.valence", folders.get(id), () -> {
            long counted = children.getOrDefault(id, 0L);
            return Outcome.test(stored == counted, stored, counted).with("folder", id);
        }));
        folders.forEach((id, where) -> all.in(where).check("hfs.catalog.thread", where,
                () -> Outcome.test(threads.contains(id), "none", "a thread record").with("folder", id)));
    }
}
