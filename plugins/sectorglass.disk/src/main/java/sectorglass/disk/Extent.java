package sectorglass.disk;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/**
 * A piece of a file's content and where it stands.
 *
 * @param kind how it stands there
 * @param offset first byte in the file
 * @param length bytes of the file, more than 0
 * @param imageByte image byte where it stands; -1 for holes and unknown places
 * @param stored bytes it takes in the image: {@code length} for plain and resident pieces, less for compressed ones, 0 where it stands
 *     nowhere
 */
public record Extent(Kind kind, long offset, long length, long imageByte, long stored) {

    /** How a piece stands in the image. */
    public enum Kind {
        /** As it is, in clusters of its own. */
        PLAIN,
        /** Inside a record of the file system, together with its metadata. */
        RESIDENT,
        /** Compressed: the stored bytes must be read together. */
        COMPRESSED,
        /** Nowhere: zero by definition. */
        HOLE,
        /** Somewhere, but nothing that was read says where. */
        UNKNOWN
    }

    /** A piece that stands as it is. */
    public static Extent plain(long offset, long length, long imageByte) {
        return new Extent(Kind.PLAIN, offset, length, imageByte, length);
    }

    /** A piece that is zero by definition. */
    public static Extent hole(long offset, long length) {
        return new Extent(Kind.HOLE, offset, length, -1, 0);
    }

    /** A piece whose place is not known. */
    public static Extent unknown(long offset, long length) {
        return new Extent(Kind.UNKNOWN, offset, length, -1, 0);
    }

    /** First byte of the file after the piece. */
    public long end() {
        return offset + length;
    }

    /** Whether it takes bytes of the image. */
    public boolean placed() {
        return imageByte >= 0 && stored > 0;
    }

    /** The sectors that hold it; none where it stands nowhere. */
    public SectorRange sectors(int sectorSize) {
        if (!placed()) {
            return new SectorRange(0, 0);
        }
        long first = imageByte / sectorSize;
        return new SectorRange(first, (imageByte + stored - 1) / sectorSize - first + 1);
    }

    /** The sectors that hold some of the pieces. */
    public static SectorRanges sectors(Iterable<Extent> extents, int sectorSize) {
        java.util.List<SectorRange> all = new java.util.ArrayList<>();
        for (Extent extent : extents) {
            if (extent.placed()) {
                all.add(extent.sectors(sectorSize));
            }
        }
        return SectorRanges.of(all);
    }
}
