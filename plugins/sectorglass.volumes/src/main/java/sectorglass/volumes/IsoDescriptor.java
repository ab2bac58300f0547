package sectorglass.volumes;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * A volume descriptor of ISO 9660. Source: ECMA-119, chapter 8.
 *
 * @param at byte from the start of the site
 * @param type 0 boot, 1 primary, 2 supplementary, 3 partition, 255 end
 */
record IsoDescriptor(long at, int type) {
    private static final int MOST = 64;

    /** The descriptors of a site, up to the end mark or the first that is not one or was not read. */
    static List<IsoDescriptor> list(VolumeSite site) {
        List<IsoDescriptor> all = new ArrayList<>();
        for (int i = 0; i < MOST; i++) {
            long at = 32768 + 2048L * i;
            if (!site.has(at, 512) || !site.window(at, 6).matches(1, "CD001")) {
                break;
            }
            int type = site.window(at, 1).u8(0);
            all.add(new IsoDescriptor(at, type));
            if (type == 255) {
                break;
            }
        }
        return all;
    }

    /** Whether the numbers that are stored in both byte orders agree. */
    static boolean bothEndianAgree(Window w) {
        return w.u32le(80) == w.u32be(84) && w.u16le(120) == w.u16be(122) && w.u16le(124) == w.u16be(126)
                && w.u16le(128) == w.u16be(130) && w.u32le(132) == w.u32be(136) && w.u32le(158) == w.u32be(162)
                && w.u32le(166) == w.u32be(170);
    }

    /** Whether a supplementary descriptor has one of the three Joliet escape sequences. */
    static boolean joliet(Window w) {
        return w.matches(88, 0x25, 0x2F) && (w.u8(90) == 0x40 || w.u8(90) == 0x43 || w.u8(90) == 0x45);
    }
}
