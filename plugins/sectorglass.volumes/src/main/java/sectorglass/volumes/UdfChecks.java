package sectorglass.volumes;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges the tags of UDF anchors and of the volume descriptors they name. Source: ECMA-167, 3/7.2. */
final class UdfChecks {
    private static final int MOST = 64;

    private UdfChecks() {
    }

    static void check(VolumeSite site, UdfAnchor anchor, Checks all) {
        if (anchor == null) {
            return;
        }
        for (long sector : UdfAnchor.places(site, anchor.sectorSize())) {
            VolumeHeader header = new VolumeHeader(site, sector * anchor.sectorSize(), 512);
            // only one place of the three must hold an anchor: one that is not there is no fault
            if (header.inside() && (sector == anchor.sector()
                    || Boolean.TRUE.equals(VolumeFacts.known(() -> header.window().u16le(0) == 2 && header.window().u32le(12) == sector)))) {
                tag(header, sector, all);
            }
        }
        for (int extent : new int[] {16, 24}) {
            VolumeFacts.known(() -> {
                Window w = site.window(anchor.at(), 512);
                long first = w.u32le(extent + 4);
                for (long sector = first; sector < first + Math.min(MOST, w.u32le(extent) / anchor.sectorSize()); sector++) {
                    VolumeHeader header = new VolumeHeader(site, sector * anchor.sectorSize(), 512);
                    if (!header.inside() || header.window().isRead(0, 16) && header.window().u16le(0) == 0) {
                        break;
                    }
                    tag(header, sector, all);
                    if (header.window().isRead(0, 2) && header.window().u16le(0) == 8) {
                        break;
                    }
                }
                return true;
            });
        }
    }

    private static void tag(VolumeHeader header, long sector, Checks all) {
        Checks out = all.in(header.whole());
        Mark sum = out.check("udf.tag.checksum", header.range(4, 1), () -> {
            int computed = UdfAnchor.tagSum(header.window());
            return Outcome.test(computed == header.window().u8(4), header.window().u8(4), computed);
        });
        Mark crc = out.check("udf.tag.crc", header.range(8, 2), () -> {
            Window w = header.window();
            int length = w.u16le(10);
            if (length > 496 + 4096 * 8) {
                return Outcome.failed("CRC over " + length + " bytes", "a sector").at(header.range(10, 2)).because(sum);
            }
            byte[] body = header.site().window(header.at() + 16, length).bytes(0, length);
            int computed = UdfAnchor.crc(body);
            return Outcome.test(computed == w.u16le(8), String.format("%04X", w.u16le(8)), String.format("%04X", computed)).because(sum);
        });
        out.check("udf.tag.location", header.range(12, 4), () -> Outcome.test(header.window().u32le(12) == (sector & 0xFFFFFFFFL),
                header.window().u32le(12), sector).because(sum.passed() ? crc : sum));
    }
}
