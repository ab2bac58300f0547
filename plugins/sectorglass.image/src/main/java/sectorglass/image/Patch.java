package sectorglass.image;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Bytes that stand over the bytes of an image.
 *
 * @param start image byte of the first one
 * @param bytes the bytes; not copied, not to be changed afterwards
 * @param provenance where they come from
 */
public record Patch(long start, byte[] bytes, Provenance provenance) {

    /** The image bytes covered. */
    public ByteRange range() {
        return new ByteRange(start, bytes.length);
    }

    /** The sectors that patches cover whole, several together where they touch. */
    static SectorRanges wholeSectors(List<Patch> patches, int sectorSize) {
        List<Patch> sorted = new ArrayList<>(patches);
        sorted.sort(Comparator.comparingLong(Patch::start));
        List<SectorRange> whole = new ArrayList<>();
        for (int i = 0; i < sorted.size();) {
            long start = sorted.get(i).start();
            long end = start;
            while (i < sorted.size() && sorted.get(i).start() <= end) {
                end = Math.max(end, sorted.get(i++).range().end());
            }
            long first = (start + sectorSize - 1) / sectorSize;
            if (end / sectorSize > first) {
                whole.add(new SectorRange(first, end / sectorSize - first));
            }
        }
        return SectorRanges.of(whole);
    }
}
