package sectorglass.ext;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Compares bitmaps with descriptors and with what the inodes claim. Source: Linux kernel documentation, filesystems/ext4, bitmaps. */
final class BitmapPass {
    private final Census census;
    private final Layout layout;
    private final Tally tally;
    private final GroupChecks groupChecks;
    private final InodeBitmaps inodes;
    private final Mark superblock;

    BitmapPass(Census census, Tally tally, GroupChecks groupChecks, InodeBitmaps inodes, Mark superblock) {
        this.census = census;
        this.layout = census.layout;
        this.tally = tally;
        this.groupChecks = groupChecks;
        this.inodes = inodes;
        this.superblock = superblock;
    }

    void run(Progress progress) {
        for (int g = 0; g < layout.groups; g++) {
            progress.checkCancelled();
            progress.at("bitmaps", g, layout.groups);
            Group group = census.groups.get(g);
            if (group == null) {
                continue;
            }
            if (group.copied() && layout.sb.descriptorSums()) {
                stale(g);
                continue;
            }
            if (layout.inVolume(group.blockBitmap())) {
                blocks(g, group);
            }
            if (layout.inVolume(group.inodeBitmap())) {
                inodes(g, group);
            }
        }
    }

    /** Whether the bitmaps were ever written stands in the descriptor that was not read. */
    private void stale(int g) {
        SectorRanges missing = census.groups.missing(g);
        for (String rule : new String[] {"ext.bitmap.free-count", "ext.bitmap.metadata-used", "ext.block.marked"}) {
            tally.unread(rule, missing);
        }
        if (layout.sb.sums()) {
            tally.unread("ext.bitmap.checksum", missing);
        }
        tally.flush(layout.block(census.groups.get(g).blockBitmap()));
    }

    private void blocks(int g, Group group) {
        ByteRange structure = layout.block(group.blockBitmap());
        if (group.blocksUninitialised(layout.sb)) {
            uninitialised(g, structure);
            return;
        }
        Window w = layout.read(group.blockBitmap());
        int covered = (int) ((layout.sb.bigalloc() ? layout.sb.clustersPerGroup() : layout.sb.blocksPerGroup()) / 8);
        int clusters = (int) ((layout.length(g) + layout.sb.clusterRatio() - 1) / layout.sb.clusterRatio());
        Mark sum = null;
        if (layout.sb.sums()) {
            sum = sum("ext.bitmap.checksum", w, covered, group.blockSum(), structure, g);
        }
        int used = (clusters + 7) / 8;
        if (!w.isRead(0, used)) {
            SectorRanges missing = w.missing(0, used);
            for (String rule : new String[] {"ext.bitmap.free-count", "ext.bitmap.metadata-used", "ext.block.marked"}) {
                tally.unread(rule, missing);
            }
            tally.unread("ext.bitmap.padding", w.missing(clusters / 8, layout.blockSize - clusters / 8));
            tally.flush(structure);
            return;
        }
        byte[] bits = w.raw(0, layout.blockSize);
        Mark content = content(g, bits, clusters, structure, sum);
        Mark cause = sum != null ? sum : content;
        count(g, group, bits, clusters, structure, cause);
        padding(w, bits, clusters, structure, sum);
        tally.flush(structure);
    }

    private Mark sum(String rule, Window w, int covered, long stored, ByteRange structure, int g) {
        if (!w.isRead(0, covered)) {
            tally.unread(rule, w.missing(0, covered));
            return null;
        }
        long mask = layout.sb.descSize() >= 64 ? 0xFFFFFFFFL : 0xFFFFL;
        long computed = Crc.raw(layout.seed, w.raw(0, covered)) & mask;
        if (computed == stored) {
            tally.pass(rule);
            return null;
        }
        return tally.fail(rule, structure, structure, Outcome.failed(String.format("%08X", stored), String.format("%08X", computed))
                .with("group", g).because(groupChecks.bad.get(g) ? groupChecks.fault : superblock));
    }

    /** Bits against claims; gives the first failure. */
    private Mark content(int g, byte[] bits, int clusters, ByteRange structure, Mark cause) {
        long base = (long) g * (layout.sb.blocksPerGroup() / layout.sb.clusterRatio());
        long firstMeta = -1;
        long firstOwned = -1;
        long firstLeaked = -1;
        int meta = 0;
        int owned = 0;
        int leaked = 0;
        for (int i = 0; i < clusters; i++) {
            boolean bit = (bits[i >> 3] & 1 << (i & 7)) != 0;
            boolean system = census.metadata.contains(base + i);
            boolean file = census.claimed.contains(base + i);
            if (!bit && system) {
                firstMeta = meta++ == 0 ? i : firstMeta;
            } else if (!bit && file) {
                firstOwned = owned++ == 0 ? i : firstOwned;
            } else if (bit && !system && !file) {
                firstLeaked = leaked++ == 0 ? i : firstLeaked;
            }
        }
        Mark first = differ("ext.bitmap.metadata-used", g, firstMeta, meta, "used by the file system, but free in the bitmap",
                structure, cause, false);
        first = first(first, differ("ext.block.marked", g, firstOwned, owned, "owned by a file, but free in the bitmap", structure,
                cause != null ? cause : census.mapFault, true));
        if (leaked > 0) {
            SectorRanges unread = census.unreadInodes.union(census.unreadMaps);
            if (!unread.isEmpty()) {
                tally.unread("ext.block.marked", unread);
            } else {
                first = first(first, differ("ext.block.marked", g, firstLeaked, leaked, "used in the bitmap, but owned by no file",
                        structure, cause != null ? cause : census.mapFault, true));
            }
        }
        return first;
    }

    private static Mark first(Mark a, Mark b) {
        return a != null ? a : b;
    }

    private Mark differ(String rule, int g, long bit, int count, String what, ByteRange structure, Mark cause, boolean afterReplay) {
        if (count == 0) {
            tally.pass(rule);
            return null;
        }
        long block = layout.first(g) + bit * layout.sb.clusterRatio();
        ByteRange where = new ByteRange(structure.start() + bit / 8, 1);
        Outcome outcome = afterReplay && layout.sb.hasIncompat(Features.RECOVER)
                ? Outcome.undecided("the journal must be replayed first") : Outcome.failed(count + " blocks " + what, "none");
        outcome.with("group", g).with("block", block).because(cause != null ? cause : superblock);
        if (afterReplay && layout.sb.hasIncompat(Features.RECOVER)) {
            tally.undecided(rule, where, structure, outcome);
            return null;
        }
        return tally.fail(rule, where, structure, outcome);
    }

    private void count(int g, Group group, byte[] bits, int clusters, ByteRange structure, Mark cause) {
        if (group.copied()) {
            return;
        }
        long free = 0;
        for (int i = 0; i < clusters; i++) {
            free += (bits[i >> 3] & 1 << (i & 7)) == 0 ? 1 : 0;
        }
        verdict("ext.bitmap.free-count", group.freeBlocks() == free, group.freeBlocks() + " free blocks", free, structure, g, cause);
    }

    private void verdict(String rule, boolean holds, String stored, long computed, ByteRange structure, int g, Mark cause) {
        if (holds) {
            tally.pass(rule);
        } else if (layout.sb.hasIncompat(Features.RECOVER)) {
            tally.undecided(rule, structure, structure, Outcome.undecided("the journal must be replayed first").with("group", g));
        } else {
            tally.fail(rule, structure, structure, Outcome.failed(stored, computed).with("group", g)
                    .because(cause != null ? cause : groupChecks.bad.get(g) ? groupChecks.fault : superblock));
        }
    }

    private void padding(Window w, byte[] bits, int from, ByteRange structure, Mark cause) {
        if (!w.isRead(0, layout.blockSize)) {
            tally.unread("ext.bitmap.padding", w.missing(0, layout.blockSize));
            return;
        }
        for (int i = from; i < layout.blockSize * 8; i++) {
            if ((bits[i >> 3] & 1 << (i & 7)) == 0) {
                tally.fail("ext.bitmap.padding", new ByteRange(structure.start() + i / 8, 1), structure,
                        Outcome.failed("bit " + i + " clear", "set").because(cause));
                return;
            }
        }
        tally.pass("ext.bitmap.padding");
    }

    /** A block bitmap that was never written stands for a group without files. */
    private void uninitialised(int g, ByteRange structure) {
        long base = (long) g * (layout.sb.blocksPerGroup() / layout.sb.clusterRatio());
        long clusters = (layout.length(g) + layout.sb.clusterRatio() - 1) / layout.sb.clusterRatio();
        for (long i = 0; i < clusters; i++) {
            if (census.claimed.contains(base + i)) {
                tally.fail("ext.block.marked", structure, structure, Outcome.failed("block "
                        + (layout.first(g) + i * layout.sb.clusterRatio()) + " owned in a group whose bitmap was never written", "none")
                        .with("group", g).because(groupChecks.bad.get(g) ? groupChecks.fault : census.mapFault));
                return;
            }
        }
    }

    private void inodes(int g, Group group) {
        ByteRange structure = layout.block(group.inodeBitmap());
        int covered = (int) (layout.sb.inodesPerGroup() / 8);
        if (group.inodesUninitialised(layout.sb)) {
            return;
        }
        Window w = layout.read(group.inodeBitmap());
        Mark sum = layout.sb.sums() ? sum("ext.bitmap.checksum", w, covered, group.inodeSum(), structure, g) : null;
        if (inodes.known(g)) {
            if (!group.copied()) {
                verdict("ext.bitmap.free-count", group.freeInodes() == inodes.free(g), group.freeInodes() + " free inodes", inodes.free(g),
                        structure, g, sum);
            }
            padding(w, w.raw(0, layout.blockSize), (int) layout.sb.inodesPerGroup(), structure, sum);
        } else {
            tally.unread("ext.bitmap.free-count", w.missing(0, covered));
            tally.unread("ext.bitmap.padding", w.missing(covered, layout.blockSize - covered));
        }
        if (!group.copied()) {
            directories(g, group);
        }
        tally.flush(structure);
    }

    private void directories(int g, Group group) {
        if (census.unreadInodes.isEmpty()) {
            ByteRange descriptor = layout.block(layout.tableBlock(g / layout.descriptorsPerBlock()));
            verdict("ext.gd.directories", group.directories() == census.directoryCount[g], group.directories() + " directories",
                    census.directoryCount[g], descriptor, g, null);
        } else {
            tally.unread("ext.gd.directories", census.unreadInodes);
        }
    }
}
