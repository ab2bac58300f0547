package sectorglass.apple;

import java.util.List;

import sectorglass.disk.VolumeHeader;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/**
 * Judges the file tree of one volume: counts, names that lead to inodes, children of folders. Source: Apple File System Reference,
 * "File-System Objects", by way of apfs_raw.h (linux-apfs).
 */
final class ApfsVolumeChecks {
    private static final int FIRST_OWN = 16;
    private static final int MODE_MASK = 0xF000;
    private static final int FOLDER = 0x4000;
    private static final int FILE = 0x8000;
    private static final int SYMBOLIC_LINK = 0xA000;

    private final ApfsContainer container;
    private final ApfsVolumeHeader volume;
    private final Checks all;
    private final VolumeHeader header;
    private final IdIndex inodes = new IdIndex();
    private final LongList modes = new LongList();
    private final LongList children = new LongList();
    private final LongList places = new LongList();
    private final LongList parents = new LongList();
    private final LongList targets = new LongList();
    private final LongList namePlaces = new LongList();

    ApfsVolumeChecks(ApfsContainer container, ApfsVolumeHeader volume, Checks all) {
        this.container = container;
        this.volume = volume;
        this.all = all;
        this.header = container.header(volume.block);
    }

    void check(ApfsTreeChecks trees, Progress progress) {
        String name = volume.name() == null ? "volume " + volume.w.u32le(0x24) : volume.name();
        ApfsObjectMap map = new ApfsObjectMap(container, volume.mapBlock(), volume.w.u64le(16), trees.judge("the object map of " + name, false),
                progress);
        trees.unread(map.unread());
        if (volume.encrypted() && map.encrypted()) {
            return;
        }
        ApfsTree tree = volume.catalog();
        ApfsTree.Visitor judge = trees.judge("the file tree of " + name, true);
        tree.walk((block, id, node) -> {
            judge.node(block, id, node);
            if (node.leaf()) {
                leaf(node);
            }
        }, progress);
        trees.unread(tree.unread());
        SectorRanges missing = map.unread().union(tree.unread());
        Mark fault = trees.fault();
        if (!missing.isEmpty()) {
            for (String rule : List.of("apfs.vol.counts", "apfs.dir.children", "apfs.dir.target")) {
                all.in(header.whole()).report(rule, header.range(0xB8, 24), Outcome.unread(missing));
            }
        } else if (tree.damaged() || fault != null) {
            all.in(header.whole()).report("apfs.vol.counts", header.range(0xB8, 24),
                    Outcome.undecided("not every node of the file tree could be used").because(fault));
        } else {
            counts();
            relations();
        }
    }

    private void leaf(ApfsNode node) {
        Window w = node.w;
        for (int i = 0; i < node.count(); i++) {
            int key = node.key(i);
            int value = node.value(i);
            if (key < 0 || value < 0 || node.keyLength(i) < 8) {
                continue;
            }
            int type = ApfsRecords.type(w, key);
            if (type == ApfsRecords.INODE && node.valueLength(i) >= ApfsRecords.INODE_BYTES) {
                inodes.add(ApfsRecords.id(w, key));
                modes.add(w.u16le(value + 80) & MODE_MASK);
                children.add(w.u32le(value + 56));
                places.add(w.address(value));
            } else if (type == ApfsRecords.NAME && node.valueLength(i) >= 18) {
                parents.add(ApfsRecords.id(w, key));
                targets.add(w.u64le(value));
                namePlaces.add(w.address(value));
            }
        }
    }

    private void counts() {
        long[] found = new long[3];
        for (int i = 0; i < inodes.size(); i++) {
            if (inodes.get(i) >= FIRST_OWN) {
                int kind = (int) modes.get(i) == FILE ? 0 : (int) modes.get(i) == FOLDER ? 1 : (int) modes.get(i) == SYMBOLIC_LINK ? 2 : -1;
                if (kind >= 0) {
                    found[kind]++;
                }
            }
        }
        all.in(header.whole()).check("apfs.vol.counts", header.range(0xB8, 24), () -> Outcome.test(volume.files() == found[0]
                && volume.folders() == found[1] && volume.symbolicLinks() == found[2], words(volume.files(), volume.folders(), volume.symbolicLinks()),
                words(found[0], found[1], found[2])));
    }

    private static String words(long files, long folders, long links) {
        return files + " files, " + folders + " folders, " + links + " symbolic links";
    }

    private void relations() {
        Tally tally = new Tally(all, header.whole());
        LongList counted = new LongList();
        for (int i = 0; i < inodes.size(); i++) {
            counted.add(0);
        }
        for (int i = 0; i < targets.size(); i++) {
            long target = targets.get(i);
            ByteRange where = new ByteRange(namePlaces.get(i), 18);
            tally.check("apfs.dir.target", where, where, () -> Outcome.test(inodes.find(target) >= 0, "inode " + target, "an inode of the volume"));
            int parent = inodes.find(parents.get(i));
            if (parent >= 0) {
                counted.set(parent, counted.get(parent) + 1);
            }
        }
        for (int i = 0; i < inodes.size(); i++) {
            if ((int) modes.get(i) == FOLDER) {
                int place = i;
                ByteRange where = new ByteRange(places.get(i), ApfsRecords.INODE_BYTES);
                tally.check("apfs.dir.children", where, new ByteRange(where.start() + 56, 4), () -> Outcome.test(
                        children.get(place) == counted.get(place), children.get(place), counted.get(place)).with("folder", inodes.get(place)));
            }
        }
        tally.finish(List.of("apfs.dir.target", "apfs.dir.children"), null);
    }

    /** Blocks that files own are marked as used in the bitmaps. */
    static void marked(ApfsContainer container, ApfsClaims claims, SectorRanges unread, boolean whole, Checks all) {
        VolumeHeader header = container.header(container.newest);
        ApfsAllocation allocation = new ApfsAllocation(container, null);
        SectorRanges free = allocation.free();
        SectorRanges unknown = allocation.unknown();
        long found = 0;
        ByteRange first = null;
        String owner = null;
        for (int i = 0; i < claims.size(); i++) {
            if (claims.start(i) > container.blocks() - claims.count(i)) {
                continue;
            }
            SectorRange sectors = container.sectors(claims.start(i), claims.count(i));
            SectorRanges wrong = free.intersect(sectors);
            if (!wrong.isEmpty() && found++ == 0) {
                first = new ByteRange(wrong.run(0).first() * container.site.image().sectorSize(), container.blockSize);
                owner = "data stream " + claims.stream(i);
            }
        }
        ByteRange where = first != null ? first : header.whole();
        all.in(where).report("apfs.extent.marked", where, first != null ? Outcome.failed(found + " extents with free blocks, the first of " + owner, "none")
                : !unread.isEmpty() ? Outcome.unread(unread)
                : !unknown.isEmpty() || !whole ? Outcome.undecided("not all bitmaps and trees are known") : Outcome.passed());
    }
}
