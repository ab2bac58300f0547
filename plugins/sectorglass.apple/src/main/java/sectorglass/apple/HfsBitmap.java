package sectorglass.apple;

import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;

/** The allocation file of HFS+: most significant bit first, 1 is used. Source: Apple TN1150 by way of hfs_format.h (xnu). */
final class HfsBitmap {
    private static final int PIECE = 1 << 20;

    private HfsBitmap() {
    }

    static void check(VolumeSite site, HfsPlus.Place place, Window header, Checks all) {
        HfsFork fork = HfsFork.read(header, 112, header.u32be(40));
        long total = header.u32be(44);
        VolumeHeader first = new VolumeHeader(site, place.start() + 1024, 512);
        if (fork.bytes() * 8 < total || !fork.complete()) {
            return;
        }
        all.in(first.whole()).check("hfs.bitmap.free-count", first.range(48, 4), () -> {
            long used = 0;
            long bits = 0;
            for (long at = 0; at < (total + 7) / 8; at += PIECE) {
                int length = (int) Math.min(PIECE, (total + 7) / 8 - at);
                byte[] bytes = fork.window(site, place.start(), at, length).bytes(0, length);
                for (int i = 0; i < length; i++) {
                    int value = bytes[i] & 0xFF;
                    int valid = (int) Math.min(8, total - bits);
                    used += Integer.bitCount(value >> 8 - valid & 0xFF);
                    bits += valid;
                }
            }
            return Outcome.test(total - used == header.u32be(48), header.u32be(48), total - used);
        });
    }
}
