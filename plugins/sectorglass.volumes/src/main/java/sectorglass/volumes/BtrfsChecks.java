package sectorglass.volumes;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges the copies of a Btrfs superblock and the root of the chunk tree. Source: libblkid superblock prober (util-linux). */
final class BtrfsChecks {
    private final VolumeSite site;
    private final long believed;

    BtrfsChecks(VolumeSite site, long believed) {
        this.site = site;
        this.believed = believed;
    }

    void check(Checks all) {
        long newest = -1;
        for (long at : BtrfsVolumes.PLACES) {
            VolumeHeader header = new VolumeHeader(site, at, 4096);
            if (header.inside() && header.window().isRead(0, 4096) && header.window().matches(0x40, BtrfsVolumes.MAGIC)
                    && BtrfsSuperblock.sumHolds(header.window())) {
                newest = Math.max(newest, header.window().u64le(0x48));
            }
        }
        for (long at : BtrfsVolumes.PLACES) {
            VolumeHeader header = new VolumeHeader(site, at, 4096);
            if (header.inside()) {
                copy(header, newest, all.in(header.whole()));
            }
        }
        chunkRoot(all);
    }

    private static void copy(VolumeHeader header, long newest, Checks out) {
        Mark magic = out.check("btrfs.sb.magic", header.range(0x40, 8), () -> Outcome.test(
                header.window().matches(0x40, BtrfsVolumes.MAGIC), header.window().ascii(0x40, 8).replaceAll("[^ -~]", "?"),
                BtrfsVolumes.MAGIC));
        if (magic.failed()) {
            return;
        }
        Mark sum = out.check("btrfs.sb.csum", header.range(0, 32), () -> {
            Window w = header.window();
            if (w.u16le(0xC4) != 0) {
                return w.u16le(0xC4) <= 3 ? Outcome.undecided("checksum type " + w.u16le(0xC4) + " is not computed here")
                        : Outcome.failed("checksum type " + w.u16le(0xC4), "0 to 3");
            }
            long computed = BtrfsSuperblock.sum(w);
            return Outcome.test(computed == w.u32le(0), VolumeHeader.hex(w.u32le(0)), VolumeHeader.hex(computed));
        });
        out.check("btrfs.sb.bytenr", header.range(0x30, 8), () -> Outcome.test(header.window().u64le(0x30) == header.at(),
                header.window().u64le(0x30), header.at()).because(sum));
        out.check("btrfs.sb.generation", header.range(0x48, 8), () -> newest < 0 ? null
                : Outcome.test(header.window().u64le(0x48) == newest, header.window().u64le(0x48), newest).because(sum));
    }

    /** The chunk tree's root lies in a chunk that the system array of the superblock maps. */
    private void chunkRoot(Checks all) {
        VolumeHeader sb = new VolumeHeader(site, believed, 4096);
        Long node = VolumeFacts.known(() -> physical(sb.window(), sb.window().u64le(0x58)));
        Long size = VolumeFacts.known(() -> sb.window().u32le(0x94));
        if (node == null || node < 0 || !VolumeFacts.power(size, 4096, 65536)) {
            return;
        }
        VolumeHeader header = new VolumeHeader(site, node, size.intValue());
        if (!header.inside() || sb.window().u16le(0xC4) != 0) {
            return;
        }
        Checks out = all.in(header.whole());
        Mark sum = out.check("btrfs.node.csum", header.range(0, 32), () -> {
            long computed = BtrfsSuperblock.sum(header.window());
            return Outcome.test(computed == header.window().u32le(0), VolumeHeader.hex(header.window().u32le(0)), VolumeHeader.hex(computed));
        });
        out.check("btrfs.node.bytenr", header.range(0x30, 8), () -> Outcome.test(
                header.window().u64le(0x30) == sb.window().u64le(0x58), Long.toUnsignedString(header.window().u64le(0x30)),
                Long.toUnsignedString(sb.window().u64le(0x58))).because(sum));
    }

    /** Byte on this device of a logical address in the system chunks, or -1. */
    private static long physical(Window sb, long logical) {
        long size = Math.min(2048, sb.u32le(0xA0));
        long device = sb.u64le(0xC9);
        for (int at = 0x32B; at + 17 + 48 + 32 <= 0x32B + size;) {
            long start = sb.u64le(at + 9);
            long length = sb.u64le(at + 17);
            int stripes = sb.u16le(at + 17 + 44);
            if (stripes == 0 || at + 65 + stripes * 32L > 0x32B + size) {
                return -1;
            }
            for (int i = 0; i < stripes; i++) {
                int stripe = at + 65 + 32 * i;
                if (sb.u64le(stripe) == device && logical >= start && logical - start < length) {
                    return sb.u64le(stripe + 8) + logical - start;
                }
            }
            at += 65 + stripes * 32;
        }
        return -1;
    }
}
