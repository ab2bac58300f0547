package sectorglass.ext;

import java.util.List;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Severity;

/** Judges the superblock and its backups. Source: Linux kernel documentation, filesystems/ext4, super block. */
final class SuperblockChecks {
    private static final int BACKUPS = 64;
    /** Offset and length of what must be equal in all copies; counts, states, times and checksums differ by design. */
    private static final int[][] SAME = {{0x00, 8}, {0x14, 24}, {0x38, 2}, {0x4C, 4}, {0x54, 6}, {0x5C, 44}, {0xEC, 16}, {0xFE, 2},
        {0x104, 4}, {0x150, 4}, {0x175, 1}, {0x24C, 8}, {0x270, 4}};

    private final VolumeSite site;
    private final Checks all;
    /** The check that explains why others fail, or null. */
    Mark fault;

    SuperblockChecks(VolumeSite site, Checks all) {
        this.site = site;
        this.all = all;
    }

    private ByteRange range(long at, int offset, int length) {
        return new ByteRange(site.firstByte() + at + offset, length);
    }

    /** The primary; {@code layout} comes from the copy that is believed and may be null. */
    void primary(Layout layout) {
        Window w = site.window(1024, Superblock.LENGTH);
        Checks out = all.in(range(1024, 0, Superblock.LENGTH));
        Mark magic = out.check("ext.sb.magic", range(1024, 0x38, 2), () -> Outcome.test(w.u16le(0x38) == Superblock.MAGIC,
                String.format("%04X", w.u16le(0x38)), "EF53"));
        if (!magic.passed()) {
            fault = magic;
            return;
        }
        Mark sum = sum(w, 1024, out);
        Mark geometry = out.check("ext.sb.geometry", range(1024, 0, 0x60), () -> {
            String problem = features(w);
            problem = problem == null ? Superblock.read(w).problem() : problem;
            return Outcome.test(problem == null, problem, "sizes and counts that agree").because(sum);
        });
        fault = sum != null && sum.failed() ? sum : geometry.failed() ? geometry : null;
        state(w, out);
        if (geometry.passed() && layout != null) {
            out.check("ext.sb.fits", range(1024, 4, 4), () -> {
                Superblock sb = Superblock.read(w);
                long room = site.bytes() / sb.blockSize();
                return Outcome.test(sb.blocks() <= room, sb.blocks() + " blocks", "at most " + room).because(fault);
            });
        }
    }

    private Mark sum(Window w, long at, Checks out) {
        return out.check("ext.sb.checksum", range(at, 0x3FC, 4), () -> {
            if ((w.u32le(0x64) & Features.METADATA_CSUM) == 0) {
                return null;
            }
            long computed = Superblock.sum(w);
            return Outcome.test(computed == w.u32le(0x3FC), String.format("%08X", w.u32le(0x3FC)), String.format("%08X", computed));
        });
    }

    /** Fields and features that cannot stand together. */
    private static String features(Window w) {
        long ro = w.u32le(0x64);
        long incompat = w.u32le(0x60);
        if ((ro & Features.METADATA_CSUM) != 0 && (ro & Features.GDT_CSUM) != 0) {
            return "features metadata_csum and gdt_csum together";
        }
        if ((ro & Features.METADATA_CSUM) != 0 && w.u8(0x175) != 1) {
            return "checksum type " + w.u8(0x175);
        }
        if ((incompat & Features.BIT64) != 0 && (w.u16le(0xFE) < 64 || w.u16le(0xFE) > 1024 || Integer.bitCount(w.u16le(0xFE)) != 1)) {
            return "descriptor size " + w.u16le(0xFE) + " with 64bit";
        }
        Superblock sb = Superblock.read(w);
        if ((incompat & Features.META_BG) != 0 && sb.problem() == null) {
            long tables = (sb.groups() + sb.blockSize() / sb.descSize() - 1) / (sb.blockSize() / sb.descSize());
            if (sb.firstMetaBg() > tables) {
                return "first meta block group " + sb.firstMetaBg() + " of " + tables;
            }
        }
        if ((incompat & Features.META_BG) != 0 && (w.u32le(0x5C) & 0x10) != 0) {
            return "features resize_inode and meta_bg together";
        }
        if (w.u32le(0x4C) != 0 && w.u32le(0x54) < 11) {
            return "first inode " + w.u32le(0x54);
        }
        int most = sb.inodeSize() - 128;
        if (w.u32le(0x4C) != 0 && most > 0 && (w.u16le(0x15C) > most || w.u16le(0x15E) > most || w.u16le(0x15C) % 4 != 0)) {
            return "extra inode size " + w.u16le(0x15C) + " and " + w.u16le(0x15E) + " in inodes of " + sb.inodeSize();
        }
        long journal = w.u32le(0xE0);
        if ((w.u32le(0x5C) & Features.HAS_JOURNAL) == 0 && (incompat & Features.RECOVER) != 0) {
            return "recovery asked for without a journal";
        }
        return (w.u32le(0x5C) & Features.HAS_JOURNAL) != 0 && journal != 0 && journal > sb.inodes() ? "journal inode " + journal : null;
    }

    private void state(Window w, Checks out) {
        out.check("ext.sb.state", range(1024, 0x3A, 2), () -> {
            int state = w.u16le(0x3A);
            boolean recover = (w.u32le(0x60) & Features.RECOVER) != 0;
            if ((state & 1) == 0 || (state & 6) != 0 || recover) {
                return Outcome.failed(String.format("state %04X%s", state, recover ? ", journal needs replay" : ""), "0001")
                        .severity(Severity.AT_RISK);
            }
            if (w.u32le(0xE8) != 0) {
                return Outcome.failed("list of orphans from inode " + w.u32le(0xE8), "no orphans").at(range(1024, 0xE8, 4))
                        .severity(Severity.COSMETIC);
            }
            long errors = w.u32le(0x194);
            return errors == 0 || w.u32le(0x4C) == 0 ? Outcome.passed()
                    : Outcome.failed(errors + " errors recorded", "0").at(range(1024, 0x194, 4)).severity(Severity.COSMETIC);
        });
    }

    /** The backups, as far as the layout tells where they are; the stock checker never compares them. */
    void backups(Layout layout) {
        Window first = site.window(1024, Superblock.LENGTH);
        List<Long> groups = layout.backupGroups(BACKUPS);
        for (long group : groups) {
            long at = layout.first(group) * layout.blockSize;
            if (at > site.bytes() - Superblock.LENGTH) {
                break;
            }
            Window w = site.window(at, Superblock.LENGTH);
            Checks out = all.in(range(at, 0, Superblock.LENGTH));
            Mark magic = out.check("ext.sb.magic", range(at, 0x38, 2), () -> Outcome.test(w.u16le(0x38) == Superblock.MAGIC,
                    String.format("%04X", w.u16le(0x38)), "EF53").severity(Severity.AT_RISK).because(fault));
            if (!magic.passed()) {
                continue;
            }
            Mark sum = sum(w, at, out);
            out.check("ext.sb.backup-group", range(at, 0x5A, 2), () -> Outcome.test(w.u16le(0x5A) == (group & 0xFFFF), w.u16le(0x5A), group)
                    .because(sum));
            out.check("ext.sb.backup-equals", range(at, 0, Superblock.LENGTH), () -> compare(first, w, at).with("group", group)
                    .because(sum != null && sum.failed() ? sum : fault));
        }
    }

    private Outcome compare(Window first, Window copy, long at) {
        for (int[] field : SAME) {
            for (int i = field[0]; i < field[0] + field[1]; i++) {
                if (first.u8(i) != copy.u8(i) && !mayDiffer(first, copy, i)) {
                    return Outcome.failed(String.format("%02X", copy.u8(i)), String.format("%02X", first.u8(i))).at(range(at, i, 1))
                            .with("offset", i);
                }
            }
        }
        return Outcome.passed();
    }

    /** The bit "needs recovery" and "orphans present" are set in the primary alone while the volume is in use. */
    private static boolean mayDiffer(Window first, Window copy, int at) {
        int difference = first.u8(at) ^ copy.u8(at);
        return at == 0x60 && (difference & ~4) == 0 || at == 0x66 && (difference & ~1) == 0;
    }
}
