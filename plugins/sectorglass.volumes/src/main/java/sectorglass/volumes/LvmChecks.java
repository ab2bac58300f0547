package sectorglass.volumes;

import java.util.Arrays;

import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges label, metadata headers and metadata text of LVM2. Source: LVM2 text format layout header. */
final class LvmChecks {
    static final byte[] MAGIC = {0x20, 0x4C, 0x56, 0x4D, 0x32, 0x20, 0x78, 0x5B, 0x35, 0x41, 0x25, 0x72, 0x30, 0x4E, 0x2A, 0x3E};
    private static final long MOST_TEXT = 16 << 20;

    private LvmChecks() {
    }

    static void check(VolumeSite site, int sector, Checks all) {
        VolumeHeader label = new VolumeHeader(site, sector * 512L, 512);
        Checks out = all.in(label.whole());
        Mark sum = out.check("lvm.label.crc", label.range(16, 4), () -> {
            long computed = LvmVolume.sum(label.window());
            return Outcome.test(computed == label.window().u32le(16), VolumeHeader.hex(label.window().u32le(16)), VolumeHeader.hex(computed));
        });
        out.check("lvm.label.sector", label.range(8, 8), () -> Outcome.test(label.window().u64le(8) == sector,
                Long.toUnsignedString(label.window().u64le(8)), sector));
        out.check("lvm.pv.size", label.range(64, 8), () -> Outcome.test(label.window().u64le(64) >= 0
                && label.window().u64le(64) <= site.bytes(), Long.toUnsignedString(label.window().u64le(64)),
                "at most " + site.bytes()).because(sum));
        for (LvmVolume.Area area : LvmVolume.metadataAreas(label.window())) {
            metadata(new VolumeHeader(site, area.offset(), 512), area, sum, all);
        }
    }

    private static void metadata(VolumeHeader header, LvmVolume.Area area, Mark label, Checks all) {
        if (!header.inside()) {
            return;
        }
        Checks out = all.in(header.whole());
        Mark magic = out.check("lvm.mda.magic", header.range(4, 16), () -> Outcome.test(
                Arrays.equals(header.window().bytes(4, 16), MAGIC), header.window().ascii(4, 16).replaceAll("[^ -~]", "?"),
                " LVM2 x[5A%r0N*>").because(label));
        if (magic.failed()) {
            return;
        }
        Mark sum = out.check("lvm.mda.crc", header.range(0, 4), () -> {
            long computed = SeededCrc32.of(SeededCrc32.LVM, header.window().bytes(4, 508));
            return Outcome.test(computed == header.window().u32le(0), VolumeHeader.hex(header.window().u32le(0)), VolumeHeader.hex(computed));
        });
        out.check("lvm.mda.start", header.range(24, 16), () -> Outcome.test(header.window().u64le(24) == header.at()
                && (area.size() == 0 || header.window().u64le(32) == area.size()), header.window().u64le(24) + ", "
                + header.window().u64le(32) + " bytes", header.at() + ", " + area.size() + " bytes").because(sum));
        out.check("lvm.text.crc", header.range(40, 24), () -> {
            Window w = header.window();
            long offset = w.u64le(40);
            long size = w.u64le(48);
            if (offset == 0 && size == 0 || (w.u32le(60) & 1) != 0) {
                return null;
            }
            byte[] text = text(header.site(), header.at(), w.u64le(32), offset, size);
            if (text == null) {
                return Outcome.failed("offset " + offset + ", " + size + " bytes", "inside the area").because(sum);
            }
            long computed = SeededCrc32.of(SeededCrc32.LVM, text);
            return Outcome.test(computed == w.u32le(56), VolumeHeader.hex(w.u32le(56)), VolumeHeader.hex(computed)).because(sum);
        });
    }

    /** The text of a location, which may wrap around inside the area; null where the location cannot be. */
    static byte[] text(VolumeSite site, long area, long areaSize, long offset, long size) {
        if (offset < 512 || size <= 0 || size > MOST_TEXT || areaSize <= 512 || areaSize > site.bytes() || offset >= areaSize
                || size > areaSize - 512 || area > site.bytes() - areaSize) {
            return null;
        }
        int head = (int) Math.min(size, areaSize - offset);
        byte[] text = Arrays.copyOf(site.window(area + offset, head).bytes(0, head), (int) size);
        if (head < size) {
            byte[] tail = site.window(area + 512, (int) size - head).bytes(0, (int) size - head);
            System.arraycopy(tail, 0, text, head, tail.length);
        }
        return text;
    }
}
