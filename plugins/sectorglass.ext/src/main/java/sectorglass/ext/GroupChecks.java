package sectorglass.ext;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges group descriptors and their copies. Source: Linux kernel documentation, filesystems/ext4, block group descriptors. */
final class GroupChecks {
    private static final int COPIES = 64;

    private final Layout layout;
    private final Groups groups;
    private final Checks all;
    private final Tally tally;
    private final Mark superblock;
    /** The first descriptor that failed, or null. */
    Mark fault;
    /** Groups whose descriptor does not hold: counts of them prove nothing. */
    final java.util.BitSet bad = new java.util.BitSet();

    GroupChecks(Layout layout, Groups groups, Checks all, Mark superblock) {
        this.layout = layout;
        this.groups = groups;
        this.all = all;
        this.tally = new Tally(all);
        this.superblock = superblock;
    }

    void check() {
        int per = layout.descriptorsPerBlock();
        int size = layout.sb.descSize();
        for (long index = 0; index * per < layout.groups; index++) {
            long block = layout.tableBlock(index);
            if (!layout.inVolume(block)) {
                continue;
            }
            Window w = layout.read(block);
            for (int i = 0; i < per && index * per + i < layout.groups; i++) {
                descriptor(index * per + i, w, i * size);
            }
            tally.flush(layout.block(block));
            copies(index, block, w);
        }
        freeSum();
    }

    private void descriptor(long number, Window w, int at) {
        int size = layout.sb.descSize();
        if (!w.isRead(at, size)) {
            SectorRanges missing = w.missing(at, size);
            if (layout.sb.descriptorSums()) {
                tally.unread("ext.gd.checksum", missing);
            }
            tally.unread("ext.gd.range", missing);
            return;
        }
        ByteRange structure = w.range(at, size);
        Mark sum = null;
        if (layout.sb.descriptorSums()) {
            int computed = Group.sum(layout, number, w, at);
            int stored = w.u16le(at + 0x1E);
            if (computed != stored) {
                bad.set((int) number);
                sum = tally.fail("ext.gd.checksum", w.range(at + 0x1E, 2), structure, Outcome.failed(String.format("%04X", stored),
                        String.format("%04X", computed)).with("group", number).because(superblock));
                fault = fault == null ? sum : fault;
            } else {
                tally.pass("ext.gd.checksum");
            }
        }
        Group group = Group.read(number, w, at, size, false);
        String problem = places(group);
        if (problem != null) {
            bad.set((int) number);
            Mark range = tally.fail("ext.gd.range", structure, structure, Outcome.failed(problem, "inside the volume, apart from each other")
                    .with("group", number).because(sum != null ? sum : superblock));
            fault = fault == null ? range : fault;
        } else {
            tally.pass("ext.gd.range");
        }
    }

    private String places(Group group) {
        long table = layout.inodeTableBlocks();
        if (!layout.sb.descriptorSums() && ((group.flags() & 3) != 0 || group.unused() != 0)) {
            return "flags " + group.flags() + ", " + group.unused() + " unused inodes without the feature";
        }
        if (!layout.inVolume(group.blockBitmap())) {
            return "block bitmap in block " + group.blockBitmap();
        }
        if (!layout.inVolume(group.inodeBitmap())) {
            return "inode bitmap in block " + group.inodeBitmap();
        }
        if (!layout.inVolume(group.inodeTable(), table)) {
            return "inode table from block " + group.inodeTable();
        }
        long first = layout.first(group.number());
        if (!layout.sb.hasIncompat(Features.FLEX_BG)) {
            long end = first + layout.length(group.number());
            if (group.blockBitmap() < first || group.blockBitmap() >= end || group.inodeBitmap() < first || group.inodeBitmap() >= end
                    || group.inodeTable() < first || group.inodeTable() + table > end) {
                return "bitmaps " + group.blockBitmap() + " and " + group.inodeBitmap() + ", table " + group.inodeTable()
                        + " outside blocks " + first + " to " + (end - 1);
            }
        }
        if (group.blockBitmap() == group.inodeBitmap() || within(group.blockBitmap(), group.inodeTable(), table)
                || within(group.inodeBitmap(), group.inodeTable(), table)) {
            return "bitmaps " + group.blockBitmap() + " and " + group.inodeBitmap() + " overlap each other or the table from "
                    + group.inodeTable();
        }
        long head = layout.groupOf(group.inodeTable());
        if (head >= 0 && head < layout.groups && group.inodeTable() < layout.first(head) + layout.headBlocks(head)
                || group.blockBitmap() < first + layout.headBlocks(group.number()) && group.blockBitmap() >= first
                || group.inodeBitmap() < first + layout.headBlocks(group.number()) && group.inodeBitmap() >= first) {
            return "bitmaps " + group.blockBitmap() + " and " + group.inodeBitmap() + ", table " + group.inodeTable()
                    + " overlap superblock or descriptors";
        }
        return null;
    }

    private static boolean within(long block, long first, long count) {
        return block >= first && block < first + count;
    }

    /** The three addresses in each copy of a block of the table equal those of the first; counts are stale by design. */
    private void copies(long index, long primary, Window first) {
        int per = layout.descriptorsPerBlock();
        int size = layout.sb.descSize();
        for (long copy : layout.tableCopies(index, COPIES)) {
            if (copy == primary || !layout.inVolume(copy) || (copy + 1) * layout.blockSize > layout.site.bytes()) {
                continue;
            }
            Window w = layout.read(copy);
            all.in(layout.block(copy)).check("ext.gd.backup-equals", layout.block(copy), () -> {
                SectorRanges missing = SectorRanges.EMPTY;
                for (int i = 0; i < per && index * per + i < layout.groups; i++) {
                    for (int k = 0; k < (size >= 64 ? 24 : 12); k++) {
                        int at = i * size + (k < 12 ? k : 0x14 + k);
                        if (!first.isRead(at, 1) || !w.isRead(at, 1)) {
                            missing = missing.union(first.missing(at, 1)).union(w.missing(at, 1));
                        } else if (first.u8(at) != w.u8(at)) {
                            return Outcome.failed(String.format("%02X", w.u8(at)), String.format("%02X", first.u8(at)))
                                    .at(w.range(at, 1)).with("group", index * per + i).because(fault != null ? fault : superblock);
                        }
                    }
                }
                return missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing);
            });
        }
    }

    private void freeSum() {
        long blocks = 0;
        long inodes = 0;
        SectorRanges missing = SectorRanges.EMPTY;
        for (int g = 0; g < layout.groups; g++) {
            Group group = groups.get(g);
            if (group == null || group.copied()) {
                missing = missing.union(groups.missing(g));
            } else {
                blocks += group.freeBlocks();
                inodes += group.freeInodes();
            }
        }
        long sumBlocks = blocks;
        long sumInodes = inodes;
        SectorRanges lost = missing;
        ByteRange sb = new ByteRange(layout.site.firstByte() + 1024, Superblock.LENGTH);
        all.in(sb).check("ext.sb.free-sum", new ByteRange(sb.start() + 0xC, 8), () -> {
            Window w = layout.site.window(1024, Superblock.LENGTH);
            long free = w.u32le(0xC) | (layout.sb.hasIncompat(Features.BIT64) ? w.u32le(0x158) << 32 : 0);
            if (!lost.isEmpty()) {
                return Outcome.unread(lost);
            }
            boolean holds = free == sumBlocks * layout.sb.clusterRatio() && w.u32le(0x10) == sumInodes;
            if (!holds && (layout.sb.hasIncompat(Features.RECOVER) || (w.u16le(0x3A) & 1) == 0)) {
                return Outcome.undecided("the volume was not closed cleanly: the counts of the superblock are written last");
            }
            return Outcome.test(holds, free + " blocks, " + w.u32le(0x10) + " inodes", sumBlocks + " blocks, " + sumInodes + " inodes")
                    .because(superblock != null ? superblock : fault);
        });
    }
}
