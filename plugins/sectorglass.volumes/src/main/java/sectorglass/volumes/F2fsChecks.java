package sectorglass.volumes;

import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges both superblocks of F2FS. Source: libblkid superblock prober for F2FS (util-linux). */
final class F2fsChecks {
    private static final int LENGTH = 3072;

    private F2fsChecks() {
    }

    static void check(VolumeSite site, Checks all) {
        Mark[] marks = new Mark[2];
        for (int i = 0; i < 2; i++) {
            VolumeHeader header = new VolumeHeader(site, F2fsVolumes.PLACES.get(i), LENGTH);
            marks[i] = !header.inside() ? null : all.in(header.whole()).check("f2fs.sb.crc", header.range(0, 4), () -> {
                Window w = header.window();
                if (w.u32le(0) != F2fsVolumes.MAGIC) {
                    return Outcome.failed("magic " + VolumeHeader.hex(w.u32le(0)), VolumeHeader.hex(F2fsVolumes.MAGIC));
                }
                long offset = w.u32le(0x20);
                if (offset == 0) {
                    return null;
                }
                if (offset > LENGTH - 4 || offset < 0x24) {
                    return Outcome.failed("checksum at byte " + offset, LENGTH - 4);
                }
                long computed = SeededCrc32.of(SeededCrc32.F2FS, w.bytes(0, (int) offset));
                long stored = w.u32le((int) offset);
                return Outcome.test(computed == stored, VolumeHeader.hex(stored), VolumeHeader.hex(computed)).at(header.range((int) offset, 4));
            });
        }
        VolumeHeader first = new VolumeHeader(site, 1024, LENGTH);
        VolumeHeader second = new VolumeHeader(site, 5120, LENGTH);
        if (second.inside()) {
            all.in(second.whole()).check("f2fs.sb.copies-equal", second.whole(), () -> {
                Mark cause = marks[0] != null && marks[0].failed() ? marks[0] : marks[1];
                int differs = compare(first.window(), second.window());
                if (differs >= 0) {
                    return Outcome.failed(String.format("%02X", second.window().u8(differs)),
                            String.format("%02X", first.window().u8(differs))).at(second.range(differs, 1)).because(cause);
                }
                first.window().require(0, LENGTH);
                second.window().require(0, LENGTH);
                return Outcome.passed();
            });
        }
    }

    /** First byte that was read in both and differs, or -1. */
    private static int compare(Window a, Window b) {
        for (int i = 0; i < LENGTH; i++) {
            if (a.isRead(i, 1) && b.isRead(i, 1) && a.u8(i) != b.u8(i)) {
                return i;
            }
        }
        return -1;
    }
}
