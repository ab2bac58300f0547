package sectorglass.ext;

import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges the journal's superblock. Source: Linux kernel documentation, filesystems/ext4, journal (jbd2). */
final class JournalChecks {
    private JournalChecks() {
    }

    /** Block of the journal's superblock, or -1 where it is not known. */
    static long place(Layout layout, Groups groups) {
        BlockMap map = map(layout, groups);
        return map == null ? -1 : map.runs.get(0).physical();
    }

    /** Where the journal's blocks stand, block 0 at the start of the first run; null where that is not known. */
    static BlockMap map(Layout layout, Groups groups) {
        Window sb = layout.site.window(1024, Superblock.LENGTH);
        if (!layout.sb.hasCompat(Features.HAS_JOURNAL) || !sb.isRead(0, 512) || sb.u32le(0xE0) == 0) {
            return null;
        }
        long at = groups.inode(sb.u32le(0xE0));
        if (at < 0) {
            return null;
        }
        Window w = layout.site.window(at, layout.sb.inodeSize());
        if (!w.isRead(0, w.length())) {
            return null;
        }
        BlockMap map = Maps.of(layout, new Inode(sb.u32le(0xE0), w));
        return map.runs.isEmpty() || map.runs.get(0).logical() != 0 ? null : map;
    }

    /** The copy of the journal's inode in the superblock serves where the inode is lost. */
    private static void copy(Layout layout, Groups groups, Checks all, Mark superblock) {
        Window sb = layout.site.window(1024, Superblock.LENGTH);
        long number = sb.u32le(0xE0);
        ByteRange where = sb.range(0x10C, 68);
        all.in(sb.range()).check("ext.sb.journal-copy", where, () -> {
            if (sb.u8(0xFD) != 1 || groups.inode(number) < 0) {
                return sb.u8(0xFD) != 1 ? Outcome.failed("type " + sb.u8(0xFD), "a copy, type 1").because(superblock) : null;
            }
            Window w = layout.site.window(groups.inode(number), layout.sb.inodeSize());
            for (int i = 0; i < 17; i++) {
                int at = i < 15 ? 0x28 + 4 * i : i == 15 ? 0x6C : 4;
                if (sb.u32le(0x10C + 4 * i) != w.u32le(at)) {
                    return Outcome.failed(String.format("%08X", sb.u32le(0x10C + 4 * i)), String.format("%08X", w.u32le(at)))
                            .at(sb.range(0x10C + 4 * i, 4)).because(superblock);
                }
            }
            return Outcome.passed();
        });
    }

    static void check(Layout layout, Groups groups, Checks all, Mark superblock) {
        long block = place(layout, groups);
        if (block < 0) {
            return;
        }
        copy(layout, groups, all, superblock);
        Window w = layout.read(block);
        ByteRange where = w.range(0, 1024);
        Checks out = all.in(where);
        Mark head = out.check("ext.journal.superblock", w.range(0, 48), () -> {
            long type = w.u32be(4);
            if (w.u32be(0) != Journal.MAGIC || type != 3 && type != 4) {
                return Outcome.failed(String.format("magic %08X, type %d", w.u32be(0), type), "C03B3998, type 3 or 4").because(superblock);
            }
            boolean sane = w.u32be(0xC) == layout.blockSize && w.u32be(0x10) > 0 && w.u32be(0x14) < w.u32be(0x10)
                    && w.u32be(0x1C) < w.u32be(0x10);
            return Outcome.test(sane, "blocks of " + w.u32be(0xC) + " bytes, " + w.u32be(0x10) + " in all, log from " + w.u32be(0x14)
                    + ", start " + w.u32be(0x1C), "blocks of " + layout.blockSize + " bytes, the log inside").because(superblock);
        });
        if (!head.passed()) {
            return;
        }
        boolean sums = w.isRead(0x28, 4) && (w.u32be(0x28) & 0x18) != 0;
        if (!sums) {
            return;
        }
        out.check("ext.journal.superblock-checksum", w.range(0xFC, 4), () -> {
            byte[] bytes = w.bytes(0, 1024);
            java.util.Arrays.fill(bytes, 0xFC, 0x100, (byte) 0);
            int computed = Crc.raw(Crc.START, bytes);
            return Outcome.test(computed == (int) w.u32be(0xFC), String.format("%08X", w.u32be(0xFC)), String.format("%08X", computed));
        });
    }
}
