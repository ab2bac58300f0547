package sectorglass.volumes;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/**
 * Judges the headers of XFS allocation groups. Source: libblkid superblock prober for XFS (util-linux); ranges of checksums as measured
 * on volumes made by mkfs.xfs 6.1.
 */
final class XfsChecks {
    private static final int MOST_GROUPS = 65536;

    private final VolumeSite site;
    private final Window believed;
    private Mark primary;

    XfsChecks(VolumeSite site, Window believed) {
        this.site = site;
        this.believed = believed;
    }

    void check(Level level, Checks out) {
        boolean usable = Boolean.TRUE.equals(VolumeFacts.known(() -> XfsSuperblock.plausible(believed)));
        int sector = usable ? believed.u16be(102) : 512;
        superblock(new VolumeHeader(site, 0, sector), 0, out);
        if (!usable) {
            return;
        }
        long groups = Math.min(believed.u32be(88), level == Level.FULL ? MOST_GROUPS : XfsVolume.AT_ONCE);
        long step = believed.u32be(84) * believed.u32be(4);
        long[] free = {0};
        boolean whole = groups == believed.u32be(88);
        for (long group = 0; group < groups; group++) {
            if (group > 0) {
                superblock(new VolumeHeader(site, group * step, sector), group, out);
            }
            whole &= group(new VolumeHeader(site, group * step, sector), group, out, free);
        }
        if (whole) {
            out.in(new ByteRange(site.firstByte(), sector)).check("xfs.free-sum", new ByteRange(site.firstByte() + 144, 8), () -> {
                Window w = site.window(0, 512);
                return Outcome.test(w.u64be(144) == free[0], Long.toUnsignedString(w.u64be(144)), free[0]).because(primary);
            });
        }
        if (XfsSuperblock.version(believed) == 5) {
            rootInode(out);
        }
    }

    private void superblock(VolumeHeader header, long group, Checks all) {
        Checks out = all.in(header.whole());
        Mark magic = out.check("xfs.sb.magic", header.range(0, 4),
                () -> Outcome.test(header.window().matches(0, XfsVolumes.MAGIC), hex(header.window(), 0), "58465342")
                        .with("group", group));
        if (magic.failed()) {
            primary = group == 0 ? magic : primary;
            return;
        }
        Mark sum = out.check("xfs.sb.crc", header.range(XfsSuperblock.SUM, 4), () -> {
            Window w = header.window();
            if (XfsSuperblock.version(w) != 5) {
                return null;
            }
            long computed = XfsSuperblock.sum(w, XfsSuperblock.SUM);
            return Outcome.test(computed == w.u32le(XfsSuperblock.SUM), VolumeHeader.hex(w.u32le(XfsSuperblock.SUM)), VolumeHeader.hex(computed))
                    .with("group", group);
        });
        out.check("xfs.sb.geometry", header.range(0, 128), () -> {
            String problem = XfsSuperblock.problem(header.window());
            if (problem == null && group == 0 && header.window().u8(126) != 0) {
                problem = "in-progress mark " + header.window().u8(126);
            }
            return Outcome.test(problem == null, problem, "sizes that agree").with("group", group).because(sum);
        });
        if (group == 0) {
            primary = sum != null && sum.failed() ? sum : magic;
        } else {
            out.check("xfs.sb.secondary", header.range(0, 224), () -> compare(header, group).because(sum != null && sum.failed() ? sum
                    : primary));
        }
    }

    /** Bytes 0 to 55, 80 to 125 and the features; the rest differs by design. */
    private Outcome compare(VolumeHeader header, long group) {
        Window first = site.window(0, 512);
        Window other = header.window();
        int end = XfsSuperblock.version(other) == 5 ? 224 : 208;
        for (int i = 0; i < end; i++) {
            boolean compared = i < 56 || i >= 80 && i < 126 || i >= 200;
            if (compared && first.u8(i) != other.u8(i)) {
                return Outcome.failed(String.format("%02X", other.u8(i)), String.format("%02X", first.u8(i))).at(header.range(i, 1))
                        .with("group", group).with("offset", i);
            }
        }
        return Outcome.passed();
    }

    /** AGF, AGI and AGFL of a group; gives whether the free space was counted. */
    private boolean group(VolumeHeader first, long group, Checks all, long[] free) {
        int size = first.length();
        boolean sums = XfsSuperblock.version(believed) == 5;
        String[] magic = {"XAGF", "XAGI", "XAFL"};
        int[] sumAt = {216, 312, 32};
        int[] uuidAt = {64, 296, 8};
        boolean counted = false;
        for (int kind = 0; kind < (sums ? 3 : 2); kind++) {
            VolumeHeader header = new VolumeHeader(first.site(), first.at() + (long) (kind + 1) * size, size);
            Checks out = all.in(header.whole());
            int k = kind;
            Mark sum = !sums ? null : out.check("xfs.ag.crc", header.range(sumAt[k], 4), () -> {
                Window w = header.window();
                long computed = XfsSuperblock.sum(w, sumAt[k]);
                return Outcome.test(computed == w.u32le(sumAt[k]), VolumeHeader.hex(w.u32le(sumAt[k])), VolumeHeader.hex(computed))
                        .with("header", magic[k]).with("group", group);
            });
            int seqAt = kind == 2 ? 4 : 8;
            out.check("xfs.ag.seqno", header.range(0, seqAt + 4), () -> Outcome.test(header.window().matches(0, magic[k])
                    && header.window().u32be(seqAt) == group, header.window().ascii(0, 4).replaceAll("[^ -~]", "?") + " "
                    + header.window().u32be(seqAt), magic[k] + " " + group).with("header", magic[k]).because(sum));
            if (kind < 2) {
                long wanted = Math.min(believed.u32be(84), believed.u64be(8) - group * believed.u32be(84));
                out.check("xfs.ag.length", header.range(12, 4), () -> Outcome.test(header.window().u32be(12) == wanted,
                        header.window().u32be(12), wanted).with("header", magic[k]).because(sum));
            }
            if (sums) {
                int uuid = (believed.u32be(216) & 4) != 0 ? 248 : 32;
                out.check("xfs.ag.uuid", header.range(uuidAt[k], 16), () -> Outcome.test(
                        VolumeFacts.uuid(header.window().bytes(uuidAt[k], 16)).equals(VolumeFacts.uuid(believed.bytes(uuid, 16))),
                        VolumeFacts.uuid(header.window().bytes(uuidAt[k], 16)), VolumeFacts.uuid(believed.bytes(uuid, 16)))
                        .with("header", magic[k]).because(sum));
            }
            if (kind == 0) {
                Window w = header.window();
                counted = w.isRead(0, 64);
                free[0] += counted ? w.u32be(52) + w.u32be(48) + w.u32be(60) : 0;
            }
        }
        return counted;
    }

    private void rootInode(Checks all) {
        long root = believed.u64be(56);
        int perBlock = believed.u8(123);
        int groupBits = believed.u8(124) + perBlock;
        long group = groupBits < 63 ? root >>> groupBits : 0;
        long block = (root >>> perBlock & (1L << believed.u8(124)) - 1) + group * believed.u32be(84);
        int size = believed.u16be(104);
        Long start = VolumeFacts.product(block, believed.u32be(4));
        long at = start == null ? -1 : start + (root & (1L << perBlock) - 1) * size;
        VolumeHeader header = new VolumeHeader(site, at, size);
        if (root <= 0 || !header.inside()) {
            return;
        }
        Checks out = all.in(header.whole());
        Mark sum = out.check("xfs.inode.crc", header.range(100, 4), () -> {
            Window w = header.window();
            long computed = XfsSuperblock.sum(w, 100);
            return Outcome.test(w.matches(0, "IN") && computed == w.u32le(100), VolumeHeader.hex(w.u32le(100)), VolumeHeader.hex(computed))
                    .with("inode", root);
        });
        out.check("xfs.inode.self-number", header.range(152, 8),
                () -> Outcome.test(header.window().u64be(152) == root, header.window().u64be(152), root).because(sum));
    }

    private static String hex(Window w, int at) {
        return VolumeHeader.hex(w.u32be(at));
    }
}
