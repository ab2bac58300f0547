package sectorglass.ext;

import java.util.HashSet;
import java.util.Set;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Reads all inodes and judges records, maps and claims. Source: Linux kernel documentation, filesystems/ext4, index nodes. */
final class InodePass {
    private static final int PIECE = 1 << 20;
    private static final int SHARED_MOST = 4096;
    private static final int EOF_BLOCKS = 0x400000;

    private final Layout layout;
    private final Census census;
    private final Tally tally;
    private final Mark superblock;
    private final AttributeChecks attributes;
    /** Blocks of maps and of files looked at so far. */
    private long steps;
    private final Tally.Sum checksumSum;
    private final Tally.Sum saneSum;
    private final Tally.Sum agreesSum;
    private final Tally.Sum headerSum;
    private final Tally.Sum rangeSum;
    private final Tally.Sum orderSum;
    private final Tally.Sum blocksCountSum;

    InodePass(Census census, Tally tally, Mark superblock) {
        this.layout = census.layout;
        this.census = census;
        this.tally = tally;
        this.superblock = superblock;
        this.attributes = new AttributeChecks(census, tally);
        this.checksumSum = tally.sum("ext.inode.checksum");
        this.saneSum = tally.sum("ext.inode.sane");
        this.agreesSum = tally.sum("ext.inode.bitmap-agrees");
        this.headerSum = tally.sum("ext.extent.header");
        this.rangeSum = tally.sum("ext.extent.range");
        this.orderSum = tally.sum("ext.extent.order");
        this.blocksCountSum = tally.sum("ext.inode.blocks-count");
    }

    void run(InodeBitmaps bitmaps, Progress progress) {
        for (int g = 0; g < layout.groups; g++) {
            progress.checkCancelled();
            progress.at("inode tables", g, layout.groups);
            Group group = census.groups.get(g);
            if (group == null) {
                unknown(census.groups.missing(g));
                continue;
            }
            if (!census.groups.tableInside(group)) {
                continue;
            }
            boolean skip = group.inodesUninitialised(layout.sb) && !bitmaps.any(g);
            if (!skip) {
                long count = count(g, group, bitmaps);
                table(g, group, count, bitmaps);
                tally.flush(layout.blocks(group.inodeTable(), layout.inodeTableBlocks()));
            }
        }
        attributes.run();
    }

    /** Inodes of the table that have to be looked at: those behind the mark of never used ones only if the bitmap has a bit there. */
    private long count(int g, Group group, InodeBitmaps bitmaps) {
        long all = layout.sb.inodesPerGroup();
        long used = layout.sb.descriptorSums() && !group.copied() && group.unused() <= all ? all - group.unused() : all;
        return bitmaps.known(g) ? Math.max(used, bitmaps.last(g) + 1) : all;
    }

    private void table(int g, Group group, long count, InodeBitmaps bitmaps) {
        int size = layout.sb.inodeSize();
        int perPiece = PIECE / size;
        for (long first = 0; first < count; first += perPiece) {
            int n = (int) Math.min(perPiece, count - first);
            Window w = layout.site.window(group.inodeTable() * layout.blockSize + first * size, n * size);
            boolean clean = w.isRead(0, n * size);
            byte[] raw = w.raw(0, n * size);
            for (int i = 0; i < n; i++) {
                long number = g * layout.sb.inodesPerGroup() + first + i + 1;
                if (!clean && !w.isRead(i * size, size)) {
                    unread(number, w.missing(i * size, size));
                } else if (!zero(raw, i * size, size)) {
                    inode(new Inode(number, w.sub(i * size, size)), bitmaps);
                } else if (bitmaps.used(number) && number >= layout.sb.firstInode()) {
                    agree(number, w.range(i * size, size), true);
                }
            }
        }
    }

    private static boolean zero(byte[] raw, int at, int size) {
        for (int i = at; i < at + size; i++) {
            if (raw[i] != 0) {
                return false;
            }
        }
        return true;
    }

    private void unread(long number, SectorRanges missing) {
        census.set(number, Census.UNREAD, 0);
        census.unreadInodes = census.unreadInodes.union(missing);
        if (layout.sb.sums()) {
            tally.unread("ext.inode.checksum", missing);
        }
        tally.unread("ext.inode.sane", missing);
        if (number >= layout.sb.firstInode() || number == 2) {
            tally.unread("ext.inode.bitmap-agrees", missing);
        }
    }

    private void unknown(SectorRanges missing) {
        census.unreadInodes = census.unreadInodes.union(missing);
        if (!missing.isEmpty()) {
            tally.unread("ext.inode.sane", missing);
        }
    }

    private void inode(Inode inode, InodeBitmaps bitmaps) {
        Group group = census.groups.get(census.group(inode.number()));
        if (group.copied() && layout.sb.sums() && !inode.sumHolds(layout.seed)) {
            // whether this part of the table was ever written stands in the descriptor that was not read
            unread(inode.number(), census.groups.missing(group.number()));
            return;
        }
        ByteRange structure = inode.window().range();
        Mark sum = null;
        if (layout.sb.sums()) {
            if (inode.sumHolds(layout.seed)) {
                checksumSum.pass();
            } else {
                sum = tally.fail("ext.inode.checksum", new ByteRange(structure.start() + 0x7C, 2), structure,
                        Outcome.failed(String.format("%08X", inode.stored()), String.format("%08X", inode.computed(layout.seed)))
                                .with("inode", inode.number()).because(superblock));
            }
        }
        boolean special = inode.number() < layout.sb.firstInode() && inode.number() != 2;
        boolean orphan = inode.links() == 0 && census.orphans.contains(inode.number());
        boolean used = inode.links() > 0 || orphan || special && inode.sectors(layout.sb) > 0
                || inode.number() == 1 && !inode.window().filled(0x28, 60, 0);
        if (bitmaps.known(census.group(inode.number())) && !special) {
            boolean bit = bitmaps.used(inode.number());
            if (bit != used) {
                agree(inode.number(), structure, bit);
            } else {
                agreesSum.pass();
            }
        } else if (!special && !bitmaps.missing(census.group(inode.number())).isEmpty()) {
            tally.unread("ext.inode.bitmap-agrees", bitmaps.missing(census.group(inode.number())));
        }
        if (!used) {
            return;
        }
        census.set(inode.number(), (byte) (inode.type() | (orphan ? Census.ORPHAN : Census.USED)), inode.links());
        String odd = special ? special(inode) : InodeSanity.problem(layout.sb, inode, orphan);
        Mark sane = null;
        if (odd != null) {
            sane = tally.fail("ext.inode.sane", structure, structure, Outcome.failed(odd, "fields that agree")
                    .with("inode", inode.number()).because(sum));
        } else {
            saneSum.pass();
        }
        map(inode, special, sum != null ? sum : sane);
        if (inode.type() == Inode.DIRECTORY) {
            census.directories.add(inode.number());
            census.directoryCount[census.group(inode.number())]++;
        }
    }

    /** Reserved inodes: only that of bad blocks may have no type, that of the root and the journal have one. */
    private String special(Inode inode) {
        int type = inode.type();
        if (inode.number() == 1) {
            return type != 0 && type != Inode.REGULAR ? "the inode of bad blocks has mode " + String.format("%04X",
                    inode.window().u16le(0)) : null;
        }
        if (inode.number() == 8 && !layout.sb.hasCompat(Features.HAS_JOURNAL)) {
            return "journal inode in use without the feature";
        }
        if (inode.number() == 7 && layout.sb.hasCompat(Features.RESIZE_INODE) && !ReservedInodes.growthSane(layout, inode)) {
            return "the inode for growth does not map one double-indirect block alone";
        }
        if ((inode.number() == 3 || inode.number() == 4) && inode.links() > 0 && !layout.sb.hasRo(Features.QUOTA)) {
            return "quota inode in use without the feature";
        }
        return inode.links() > 0 && type != Inode.REGULAR && type != 0 && type != Inode.DIRECTORY
                ? "reserved inode with mode " + String.format("%04X", inode.window().u16le(0)) : null;
    }

    private void agree(long number, ByteRange structure, boolean bit) {
        boolean dirty = layout.sb.hasIncompat(Features.RECOVER);
        Outcome outcome = dirty ? Outcome.undecided("the journal must be replayed first")
                : Outcome.failed(bit ? "bit set, inode without links" : "bit clear, inode with links", "bit and links agree");
        outcome.with("inode", number).because(superblock);
        if (dirty) {
            tally.undecided("ext.inode.bitmap-agrees", structure, structure, outcome);
        } else {
            tally.fail("ext.inode.bitmap-agrees", structure, structure, outcome);
        }
    }

    private void map(Inode inode, boolean special, Mark cause) {
        if (steps > 2 * layout.mostSteps()) {
            tooMany(inode, cause);
            return;
        }
        BlockMap map = inode.number() == 1 && inode.type() == 0 ? IndirectMap.read(layout, inode) : Maps.of(layout, inode);
        steps += map.nodes.size() + map.mapped();
        Mark first = cause;
        for (BlockMap.Fault fault : map.faults) {
            Mark mark = tally.fail(fault.rule(), fault.where(), fault.structure(), Outcome.failed(fault.stored(), fault.computed())
                    .with("inode", inode.number()).because(first));
            first = first == null ? mark : first;
        }
        if (!map.faults.isEmpty()) {
            census.mapFault = census.mapFault == null ? first : census.mapFault;
        } else if (map.nodesSeen > 0) {
            headerSum.pass();
            rangeSum.pass();
            orderSum.pass();
            if (layout.sb.sums() && !map.nodes.isEmpty() && inode.has(Inode.EXTENTS)) {
                tally.pass("ext.extent.checksum");
            }
        }
        if (!map.unread.isEmpty()) {
            census.unreadMaps = census.unreadMaps.union(map.unread);
            tally.unread(inode.has(Inode.EXTENTS) ? "ext.extent.header" : "ext.extent.range", map.unread);
        }
        if (!map.whole() || cause != null) {
            census.set(inode.number(), (byte) (census.kind(inode.number()) | Census.DOUBTFUL), inode.links());
        }
        if (inode.number() == 7) {
            claimResize(map);
        } else {
            claim(inode, map, first);
        }
        sizes(inode, map, special, first);
    }

    /** Files that together claim every block several times are not followed to the end: that could take for ever. */
    private void tooMany(Inode inode, Mark cause) {
        ByteRange at = inode.window().range();
        tally.fail("ext.block.claimed-once", at, at, Outcome.failed("inodes up to " + inode.number() + " claim more than " + 2 * layout.mostSteps()
                + " blocks", layout.sb.blocks() + " blocks in all").with("inode", inode.number()).with("block", 0).because(cause));
        census.set(inode.number(), (byte) (census.kind(inode.number()) | Census.DOUBTFUL), inode.links());
    }

    /** The inode for growth maps the room after the descriptor tables; only its topmost map block is its own. */
    private void claimResize(BlockMap map) {
        for (long node : map.nodes) {
            if (!census.metadata.contains(census.cluster(node))) {
                census.claimed.add(census.cluster(node));
            }
        }
    }

    private void claim(Inode inode, BlockMap map, Mark cause) {
        int ratio = layout.sb.clusterRatio();
        Set<Long> own = ratio > 1 ? new HashSet<>() : null;
        for (BlockMap.Run run : map.runs) {
            for (long block = run.physical(); block < run.physical() + run.count(); block++) {
                claim(inode, block, own, cause);
            }
        }
        for (long node : map.nodes) {
            claim(inode, node, own, cause);
        }
        long attribute = inode.attributeBlock();
        if (attribute != 0) {
            if (!layout.inVolume(attribute)) {
                ByteRange at = inode.window().range();
                tally.fail("ext.extent.range", new ByteRange(at.start() + 0x68, 4), at, Outcome.failed("attribute block " + attribute,
                        layout.sb.firstDataBlock() + " to " + (layout.sb.blocks() - 1)).with("inode", inode.number()).because(cause));
            } else if (census.attributes.merge(attribute, 1, Integer::sum) == 1) {
                claim(inode, attribute, own, cause);
            }
        }
        attributes.inside(inode, cause);
    }

    private void claim(Inode inode, long block, Set<Long> own, Mark cause) {
        long cluster = census.cluster(block);
        if (own != null && !own.add(cluster)) {
            return;
        }
        if (census.metadata.contains(cluster)) {
            if (layout.sb.clusterRatio() == 1) {
                ByteRange at = inode.window().range();
                tally.fail("ext.block.claimed-once", at, at, Outcome.failed("inode " + inode.number() + " claims block " + block
                        + " of the file system itself", "one owner").with("inode", inode.number()).with("block", block).because(cause));
                return;
            }
        }
        if (!census.claimed.add(cluster) && !layout.sb.hasRo(Features.SHARED_BLOCKS) && census.shared.size() < SHARED_MOST) {
            census.shared.computeIfAbsent(cluster, c -> new java.util.TreeSet<>()).add(inode.number());
        }
    }

    private void sizes(Inode inode, BlockMap map, boolean special, Mark cause) {
        if (special && inode.number() != 8 || !map.unread.isEmpty()) {
            return;
        }
        ByteRange at = inode.window().range();
        long taken = taken(inode, map);
        long said = inode.sectors(layout.sb);
        long values = layout.sb.hasIncompat(Features.EA_INODE) ? attributes.valueSectors(inode) : 0;
        if (taken != said && taken + values != said && !(inode.has(Inode.INLINE) && said == 0)) {
            tally.fail("ext.inode.blocks-count", new ByteRange(at.start() + 0x1C, 4), at, Outcome.failed(said, taken)
                    .with("inode", inode.number()).because(cause));
        } else {
            blocksCountSum.pass();
        }
        long end = 0;
        for (BlockMap.Run run : map.runs) {
            end = run.unwritten() ? end : Math.max(end, run.logical() + run.count());
        }
        long size = inode.size(layout.sb);
        long blocks = size / layout.blockSize + (size % layout.blockSize == 0 ? 0 : 1);
        if (special) {
            return;
        }
        boolean beyond = inode.type() == Inode.REGULAR && end > blocks && !inode.has(EOF_BLOCKS) && !inode.has(0x100000)
                && layout.sb.clusterRatio() == 1;
        boolean folder = inode.type() == Inode.DIRECTORY && !inode.has(Inode.INLINE)
                && (size % layout.blockSize != 0 || size == 0 || end != blocks);
        if ((beyond || folder || size < 0) && cause == null) {
            tally.fail("ext.inode.sane", new ByteRange(at.start() + 4, 4), at, Outcome.failed("size " + size, end + " blocks of "
                    + layout.blockSize + " bytes mapped").with("inode", inode.number()));
        }
    }

    /** Units of 512 bytes that map, tree and attribute block take. */
    private long taken(Inode inode, BlockMap map) {
        long attribute = inode.attributeBlock() != 0 ? 1 : 0;
        int ratio = layout.sb.clusterRatio();
        if (ratio == 1) {
            return (map.mapped() + map.nodes.size() + attribute) * (layout.blockSize / 512);
        }
        Set<Long> clusters = new HashSet<>();
        for (BlockMap.Run run : map.runs) {
            for (long c = census.cluster(run.physical()); c <= census.cluster(run.physical() + run.count() - 1); c++) {
                clusters.add(c);
            }
        }
        return (clusters.size() + map.nodes.size() + attribute) * ratio * (layout.blockSize / 512);
    }
}
