package sectorglass.exfat;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;

/**
 * The active FAT of an exFAT volume. A 0 entry says nothing about allocation, and entries of contiguous allocations are undefined.
 * Source: Microsoft exFAT specification, section 4.1. Not safe for several threads.
 */
final class Fat {

    static final long UNREAD = -1;
    static final long BAD = 0xFFFFFFF7L;
    static final long END = 0xFFFFFFFFL;

    private final Geometry geometry;
    private final Stretch stretch;
    private final Pages pages;

    Fat(VolumeSite site, Geometry geometry) {
        this.geometry = geometry;
        this.stretch = Stretch.of(site, geometry.fatByte(), geometry.entriesPresent() * 4);
        this.pages = new Pages(stretch, stretch.length());
    }

    /** The entry, or {@link #UNREAD} where it was not read or lies beyond the table. */
    long entry(long cluster) {
        return pages.u32(cluster * 4);
    }

    /** Whether the cluster exists and has an entry. */
    boolean exists(long cluster) {
        return geometry.exists(cluster) && cluster < geometry.entriesPresent();
    }

    ByteRange where(long cluster) {
        return new ByteRange(stretch.address(0) + cluster * 4, 4);
    }

    SectorRanges missing(long cluster) {
        return stretch.missing(cluster * 4, 4);
    }

    Geometry geometry() {
        return geometry;
    }
}
