package sectorglass.recovery;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ReadMap;
import sectorglass.image.ReadState;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/**
 * What each pass over a disk added, and which places resisted how often.
 *
 * @param passes in the order in which they were made
 * @param map all of them together: read in any pass is read, else failed in any is failed, else skipped, else unread
 * @param failedOnce sectors that failed in exactly one pass and were read in none
 * @param failedAgain sectors that failed in two passes or more and were read in none
 */
public record PassHistory(List<Pass> passes, ReadMap map, SectorRanges failedOnce, SectorRanges failedAgain) {

    /**
     * A pass.
     *
     * @param name what it is called: the file of its read map
     * @param added sectors that it read and none before it
     * @param rescued of these, how many had failed before
     * @param failed sectors that failed in it and that none before it had read
     * @param left sectors not read after it
     */
    public record Pass(String name, long added, long rescued, long failed, long left) { }

    /**
     * Puts passes together.
     *
     * @param names one per map
     * @param sectors of the disk
     */
    public static PassHistory of(List<String> names, List<ReadMap> maps, long sectors) {
        SectorRange all = new SectorRange(0, sectors);
        SectorRanges read = SectorRanges.EMPTY;
        SectorRanges once = SectorRanges.EMPTY;
        SectorRanges again = SectorRanges.EMPTY;
        SectorRanges skipped = SectorRanges.EMPTY;
        List<Pass> passes = new ArrayList<>();
        for (int i = 0; i < maps.size(); i++) {
            SectorRanges readNow = maps.get(i).inState(ReadState.READ, all);
            SectorRanges failedNow = maps.get(i).inState(ReadState.FAILED, all).minus(read);
            SectorRanges added = readNow.minus(read);
            long rescued = added.intersect(once.union(again)).count();
            again = again.union(failedNow.intersect(once)).minus(readNow);
            once = once.union(failedNow).minus(again).minus(readNow);
            skipped = skipped.union(maps.get(i).inState(ReadState.SKIPPED, all));
            read = read.union(readNow);
            passes.add(new Pass(names.get(i), added.count(), rescued, failedNow.count(), sectors - read.count()));
        }
        SectorRanges failed = once.union(again);
        SectorRanges put = skipped.minus(read).minus(failed);
        ReadMap map = ReadMap.of(read, failed, put, SectorRanges.of(all).minus(read).minus(failed).minus(put));
        return new PassHistory(List.copyOf(passes), map, once, again);
    }
}
