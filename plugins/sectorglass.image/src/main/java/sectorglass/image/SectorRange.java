package sectorglass.image;

/**
 * A run of sectors.
 *
 * @param first LBA of the first one, not negative
 * @param count number of sectors, not negative; {@code first + count} does not overflow
 */
public record SectorRange(long first, long count) implements Comparable<SectorRange> {

    /** @throws IllegalArgumentException for a negative value or an end beyond {@link Long#MAX_VALUE} */
    public SectorRange {
        if (first < 0 || count < 0 || first + count < 0) {
            throw new IllegalArgumentException("first=" + first + " count=" + count);
        }
    }

    /** First LBA after the run. */
    public long end() {
        return first + count;
    }

    /** Last LBA of the run; the run must not be empty. */
    public long last() {
        return end() - 1;
    }

    /** Whether the LBA lies in the run. */
    public boolean contains(long lba) {
        return lba >= first && lba < end();
    }

    /** Whether the other run lies in this one. */
    public boolean contains(SectorRange other) {
        return other.first >= first && other.end() <= end();
    }

    /** Whether the two share at least one sector. */
    public boolean overlaps(SectorRange other) {
        return first < other.end() && other.first < end();
    }

    /** The image bytes of the run. */
    public ByteRange bytes(int sectorSize) {
        return new ByteRange(Math.multiplyExact(first, sectorSize), Math.multiplyExact(count, sectorSize));
    }

    @Override
    public int compareTo(SectorRange other) {
        int byFirst = Long.compare(first, other.first);
        return byFirst != 0 ? byFirst : Long.compare(count, other.count);
    }
}
