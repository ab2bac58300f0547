package sectorglass.disk;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;

/**
 * A place where a volume may lie.
 *
 * @param image the disk
 * @param range the partition, or the whole image; may reach beyond the end of the image
 * @param type the map's type code or GUID for it, or null
 */
public record VolumeSite(SectorImage image, SectorRange range, String type) {

    /** Image byte of the first byte. */
    public long firstByte() {
        return Math.multiplyExact(range.first(), image.sectorSize());
    }

    /** Length in bytes. */
    public long bytes() {
        return Math.multiplyExact(range.count(), image.sectorSize());
    }

    /**
     * Bytes of the site; what lies beyond its end comes back as any bytes of the disk do.
     *
     * @param at byte from the start of the site
     */
    public Window window(long at, int length) {
        return image.window(firstByte() + at, length);
    }

    /** Whether these bytes lie in the site and were read. */
    public boolean has(long at, int length) {
        return at >= 0 && at + length <= bytes() && window(at, length).isRead(0, length);
    }
}
