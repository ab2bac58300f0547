package sectorglass.apple;

import java.util.Map;

import sectorglass.disk.Structure;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/**
 * A header at its place.
 *
 * @param site the volume's place
 * @param at byte from the start of the site
 * @param length bytes
 */
record Header(VolumeSite site, long at, int length) {

    /** Its bytes, read or not. */
    Window window() {
        return site.window(at, length);
    }

    /** Image bytes of the whole. */
    ByteRange whole() {
        return range(0, length);
    }

    /** Image bytes of a field. */
    ByteRange range(int offset, int count) {
        return new ByteRange(site.firstByte() + at + offset, count);
    }

    /** Whether it lies inside the site. */
    boolean inside() {
        return at >= 0 && at <= site.bytes() - length;
    }

    /** It as a structure. */
    Structure structure(String name, String format) {
        return Structure.plain(name, format, site.firstByte() + at, length, Map.of());
    }

    /** Four bytes as hex. */
    static String hex(long value) {
        return String.format("%08X", value);
    }
}
