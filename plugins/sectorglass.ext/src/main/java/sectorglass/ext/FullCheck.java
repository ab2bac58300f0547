package sectorglass.ext;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** The check of every inode, directory and bitmap. */
final class FullCheck {
    private static final int MOST_ORPHANS = 1 << 20;
    /** Owners that are named of one block. */
    private static final int MOST_OWNERS = 64;

    private final Census census;
    private final Layout layout;
    private final Tally tally;
    private final GroupChecks groups;
    private final Mark superblock;

    FullCheck(Layout layout, Groups table, GroupChecks groups, Checks all, Mark superblock) {
        this.layout = layout;
        this.census = new Census(layout, table);
        this.tally = new Tally(all);
        this.groups = groups;
        this.superblock = superblock;
    }

    void run(Progress progress) {
        census.claimMetadata();
        Window sb = layout.site.window(1024, Superblock.LENGTH);
        if (sb.isRead(0, 1024)) {
            orphans(sb);
        }
        Journal journal = Journal.find(layout, census.groups);
        if (journal != null) {
            new JournalLog(layout, journal, tally).run(progress);
        }
        InodeBitmaps bitmaps = new InodeBitmaps(layout, census.groups);
        new InodePass(census, tally, superblock).run(bitmaps, progress);
        shared();
        DirectoryPass names = new DirectoryPass(census, tally);
        names.run(progress);
        links();
        new BitmapPass(census, tally, groups, bitmaps, superblock).run(progress);
        tally.flush(whole());
    }

    private ByteRange whole() {
        return new ByteRange(layout.site.firstByte(), layout.sb.blocks() * layout.blockSize);
    }

    /** The chain of orphans through the time of deletion, and the orphan file. */
    private void orphans(Window sb) {
        long at = sb.u32le(0xE8);
        ByteRange where = new ByteRange(layout.site.firstByte() + 1024 + 0xE8, 4);
        while (at != 0 && census.orphans.size() < MOST_ORPHANS) {
            long place = census.groups.inode(at);
            if (place < 0 || !census.orphans.add(at)) {
                tally.fail("ext.orphan.chain", where, where, Outcome.failed("inode " + at, place < 0 ? "at most " + layout.sb.inodes()
                        : "each inode once").because(superblock));
                return;
            }
            Window w = layout.site.window(place, layout.sb.inodeSize());
            if (!w.isRead(0, 128)) {
                return;
            }
            where = w.range(0x14, 4);
            if (w.u16le(0x1A) == 0 && w.u16le(0) == 0) {
                tally.fail("ext.orphan.chain", w.range(), w.range(), Outcome.failed("inode " + at + " that was never used",
                        "an inode without names").because(superblock));
            }
            at = w.u32le(0x14);
        }
        long file = sb.u32le(0x280);
        if (layout.sb.hasCompat(Features.ORPHAN_FILE) && census.groups.inode(file) >= 0) {
            orphanFile(file);
        }
    }

    private void orphanFile(long number) {
        Window record = layout.site.window(census.groups.inode(number), layout.sb.inodeSize());
        if (!record.isRead(0, record.length())) {
            return;
        }
        Inode inode = new Inode(number, record);
        for (BlockMap.Run run : Maps.of(layout, inode).runs) {
            for (long block = run.physical(); block < run.physical() + run.count(); block++) {
                Window w = layout.read(block);
                if (!w.isRead(0, layout.blockSize)) {
                    tally.unread("ext.orphan.checksum", w.missing(0, layout.blockSize));
                    continue;
                }
                int tail = layout.blockSize - 8;
                int crc = Crc.raw(Crc.raw(inode.seed(layout.seed), Crc.le64(block)), w.raw(0, tail));
                boolean holds = w.u32le(tail) == 0x0B10CA04L && (!layout.sb.sums() || crc == (int) w.u32le(tail + 4));
                if (!holds) {
                    tally.fail("ext.orphan.checksum", w.range(tail, 8), w.range(), Outcome.failed(String.format("%08X %08X",
                            w.u32le(tail), w.u32le(tail + 4)), String.format("0B10CA04 %08X", crc)));
                } else {
                    tally.pass("ext.orphan.checksum");
                }
                for (int i = 0; i < tail; i += 4) {
                    if (w.u32le(i) != 0) {
                        census.orphans.add(w.u32le(i));
                    }
                }
            }
        }
    }

    /** Names both sides of each block that has more than one owner. */
    private void shared() {
        if (census.shared.isEmpty()) {
            if (census.unreadInodes.isEmpty() && census.unreadMaps.isEmpty()) {
                tally.pass("ext.block.claimed-once");
            } else {
                tally.unread("ext.block.claimed-once", census.unreadInodes.union(census.unreadMaps));
            }
            return;
        }
        for (Map.Entry<List<Long>, List<Long>> pair : owners().entrySet()) {
            long inode = pair.getKey().get(pair.getKey().size() - 1);
            ByteRange at = new ByteRange(layout.site.firstByte() + census.groups.inode(inode), layout.sb.inodeSize());
            List<Long> clusters = pair.getValue();
            long block = layout.sb.firstDataBlock() + clusters.get(0) * layout.sb.clusterRatio();
            tally.fail("ext.block.claimed-once", at, at, Outcome.failed("inodes " + pair.getKey() + " share " + clusters.size()
                    + " blocks, the first is " + block, "one owner").with("inode", inode).with("block", block)
                    .because(census.mapFault != null ? census.mapFault : superblock));
        }
    }

    /** Clusters by the set of inodes that claim them. */
    private Map<List<Long>, List<Long>> owners() {
        Map<Long, Set<Long>> all = census.shared;
        long steps = 0;
        for (int g = 0; g < layout.groups; g++) {
            for (int i = 0; census.kind[g] != null && i < census.kind[g].length && steps <= 2 * layout.mostSteps(); i++) {
                long number = g * layout.sb.inodesPerGroup() + i + 1;
                if (census.used(number) && number != 7) {
                    Inode inode = new Inode(number, layout.site.window(census.groups.inode(number), layout.sb.inodeSize()));
                    BlockMap map = Maps.of(layout, inode);
                    steps += map.nodes.size() + map.mapped();
                    map.runs.forEach(run -> add(all, number, run.physical(), run.count()));
                    map.nodes.forEach(node -> add(all, number, node, 1));
                    if (inode.attributeBlock() != 0 && layout.inVolume(inode.attributeBlock())) {
                        add(all, number, inode.attributeBlock(), 1);
                    }
                }
            }
        }
        Map<List<Long>, List<Long>> bySet = new java.util.LinkedHashMap<>();
        all.forEach((cluster, set) -> bySet.computeIfAbsent(List.copyOf(set), s -> new ArrayList<>()).add(cluster));
        return bySet;
    }

    private void add(Map<Long, Set<Long>> all, long number, long block, long count) {
        for (long c = census.cluster(block); c <= census.cluster(block + count - 1); c++) {
            Set<Long> set = all.get(c);
            if (set != null && set.size() < MOST_OWNERS) {
                set.add(number);
            }
        }
    }

    /** Names found against link counts; inodes in use that nothing names. */
    private void links() {
        SectorRanges unread = census.unknownNames();
        Set<Long> hidden = hidden();
        Tally.Sum passes = tally.sum("ext.links");
        if (!unread.isEmpty()) {
            // link counts stand in inodes that were not read, and names in directories
            tally.unread("ext.links", unread);
        }
        for (int g = 0; g < layout.groups; g++) {
            for (int i = 0; census.kind[g] != null && i < census.kind[g].length; i++) {
                long number = g * layout.sb.inodesPerGroup() + i + 1;
                if (number < layout.sb.firstInode() && number != 2 || census.kind[g][i] == Census.UNREAD
                        || (census.kind[g][i] & Census.USED) == 0 || hidden.contains(number) || value(number)) {
                    continue;
                }
                int stored = census.links[g][i] & 0xFFFF;
                int found = census.names[g][i] & 0xFFFF;
                boolean many = (census.kind[g][i] & 15) == Inode.DIRECTORY && stored == 1 && found > 1;
                if (stored == found || many) {
                    passes.pass();
                } else if (unread.isEmpty()) {
                    ByteRange at = new ByteRange(layout.site.firstByte() + census.groups.inode(number), layout.sb.inodeSize());
                    tally.fail("ext.links", new ByteRange(at.start() + 0x1A, 2), at, Outcome.failed(stored, found).with("inode", number)
                            .because(census.nameFault != null ? census.nameFault : superblock));
                }
            }
        }
    }

    /** Inodes that no directory names: quotas, the orphan file, the journal. */
    private Set<Long> hidden() {
        Window sb = layout.site.window(1024, Superblock.LENGTH);
        return sb.isRead(0, 1024) ? Set.copyOf(List.of(sb.u32le(0x240), sb.u32le(0x244), sb.u32le(0x26C), sb.u32le(0x280), sb.u32le(0xE0))) : Set.of();
    }

    private boolean value(long number) {
        if (!layout.sb.hasIncompat(Features.EA_INODE)) {
            return false;
        }
        Window w = layout.site.window(census.groups.inode(number), 128);
        return (w.u32le(0x20) & Inode.VALUE) != 0;
    }
}
