package sectorglass.image;

/**
 * A range of image bytes.
 *
 * @param start first image byte, not negative
 * @param length number of bytes, not negative; {@code start + length} does not overflow
 */
public record ByteRange(long start, long length) implements Comparable<ByteRange> {

    /** @throws IllegalArgumentException for a negative start or length, or an end beyond {@link Long#MAX_VALUE} */
    public ByteRange {
        if (start < 0 || length < 0 || start + length < 0) {
            throw new IllegalArgumentException("start=" + start + " length=" + length);
        }
    }

    /** First image byte after the range. */
    public long end() {
        return start + length;
    }

    /** Whether the image byte lies in the range. */
    public boolean contains(long imageByte) {
        return imageByte >= start && imageByte < end();
    }

    /** Whether the other range lies in this one; an empty range lies in every range that holds its start. */
    public boolean contains(ByteRange other) {
        return other.start >= start && other.end() <= end();
    }

    /** Whether the two share at least one byte. */
    public boolean overlaps(ByteRange other) {
        return start < other.end() && other.start < end();
    }

    /** The sectors that hold at least one byte of the range. */
    public SectorRange sectors(int sectorSize) {
        long first = start / sectorSize;
        long end = length == 0 ? first : (end() - 1) / sectorSize + 1;
        return new SectorRange(first, end - first);
    }

    @Override
    public int compareTo(ByteRange other) {
        int byStart = Long.compare(start, other.start);
        return byStart != 0 ? byStart : Long.compare(length, other.length);
    }
}
