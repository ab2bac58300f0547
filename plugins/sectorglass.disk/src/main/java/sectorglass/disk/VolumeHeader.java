package sectorglass.disk;

import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/**
 * A header of a volume at its place.
 *
 * @param site the volume's place
 * @param at byte from the start of the site
 * @param length bytes
 */
public record VolumeHeader(VolumeSite site, long at, int length) {

    /** Its bytes, read or not. */
    public Window window() {
        return site.window(at, length);
    }

    /** Image bytes of the whole. */
    public ByteRange whole() {
        return range(0, length);
    }

    /** Image bytes of a field. */
    public ByteRange range(int offset, int count) {
        return new ByteRange(site.firstByte() + at + offset, count);
    }

    /** Whether it lies inside the site. */
    public boolean inside() {
        return at >= 0 && at <= site.bytes() - length;
    }

    /** It as a structure. */
    public Structure structure(String name, String format) {
        return Structure.plain(name, format, site.firstByte() + at, length, Map.of());
    }

    /** Four bytes as hex. */
    public static String hex(long value) {
        return String.format("%08X", value);
    }
}
