package sectorglass.recovery;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/**
 * What reading costs: a seek for every range, then time for its bytes. From that follows which gaps are cheaper read than left out.
 *
 * @param bytesPerSecond how fast the drive is read, more than 0
 * @param seekSeconds time to reach the next range; 0: gaps are never read
 */
public record ReadCost(double bytesPerSecond, double seekSeconds) {
    /** A drive that still reads well: 60 MB/s, 20 ms. Common practice, no source: give what was measured. */
    public static final ReadCost USUAL = new ReadCost(60e6, 0.02);

    /** @throws IllegalArgumentException if a value makes no sense */
    public ReadCost {
        if (!(bytesPerSecond > 0) || !(seekSeconds >= 0) || Double.isInfinite(bytesPerSecond) || Double.isInfinite(seekSeconds)) {
            throw new IllegalArgumentException(bytesPerSecond + " bytes per second, " + seekSeconds + " s");
        }
    }

    /** Largest gap, in sectors, that is read rather than left out. */
    public long largestGap(int sectorSize) {
        return (long) Math.min(1L << 40, bytesPerSecond * seekSeconds / sectorSize);
    }

    /** Seconds that reading takes, as long as the drive behaves. */
    public double seconds(SectorRanges ranges, int sectorSize) {
        return ranges.count() * (double) sectorSize / bytesPerSecond + ranges.runs() * seekSeconds;
    }

    /**
     * The ranges with small gaps filled.
     *
     * @param mayBridge sectors that a gap may consist of: neither failed ones nor those of another head
     */
    public SectorRanges bridged(SectorRanges ranges, int sectorSize, SectorRanges mayBridge) {
        long most = largestGap(sectorSize);
        if (most == 0 || ranges.runs() < 2) {
            return ranges;
        }
        SectorRanges.Builder bridged = new SectorRanges.Builder();
        SectorRange before = null;
        for (SectorRange run : ranges) {
            if (before != null) {
                SectorRange gap = new SectorRange(before.end(), run.first() - before.end());
                if (gap.count() <= most && mayBridge.containsAll(gap)) {
                    bridged.add(gap.first(), gap.count());
                }
            }
            bridged.add(run.first(), run.count());
            before = run;
        }
        return bridged.build();
    }
}
