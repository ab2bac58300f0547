package sectorglass.volumes;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Outcome;

/**
 * In how many sectors the disks of a set disagree, and which of them stands alone. Counted from the first byte of the set's data on each
 * disk.
 */
final class Disagreement {
    private final long[] alone;
    private long sectors;
    private long undecided;
    private long first = -1;
    private SectorRanges missing = SectorRanges.EMPTY;

    Disagreement(int disks) {
        this.alone = new long[disks];
    }

    /**
     * Notes a sector.
     *
     * @param disk the only one that does not fit the others, or -1 where that cannot be told
     */
    void add(long sector, int disk) {
        first = first < 0 ? sector : Math.min(first, sector);
        sectors++;
        if (disk < 0) {
            undecided++;
        } else {
            alone[disk]++;
        }
    }

    /** Notes sectors that cannot be compared. */
    void unread(SectorRanges more) {
        missing = missing.union(more);
    }

    /**
     * What it comes to.
     *
     * @param start image byte of byte 0 of the data
     * @param names what the disks are called
     */
    Outcome outcome(long start, int sectorSize, List<String> names) {
        if (sectors == 0) {
            return missing.isEmpty() ? Outcome.passed() : Outcome.unread(moved(missing, start / sectorSize));
        }
        List<String> words = new ArrayList<>();
        for (int i = 0; i < alone.length; i++) {
            if (alone[i] > 0) {
                words.add(names.get(i) + ": " + alone[i]);
            }
        }
        if (undecided > 0) {
            words.add("?: " + undecided);
        }
        return Outcome.failed(sectors + " sectors", "no sector").with("sectors", sectors).with("alone", String.join("; ", words))
                .at(new ByteRange(start + first * sectorSize, sectorSize));
    }

    private static SectorRanges moved(SectorRanges ranges, long by) {
        SectorRanges.Builder all = new SectorRanges.Builder();
        for (SectorRange run : ranges) {
            all.add(run.first() + by, run.count());
        }
        return all.build();
    }
}
