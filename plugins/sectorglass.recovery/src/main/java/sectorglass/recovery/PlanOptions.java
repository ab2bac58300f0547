package sectorglass.recovery;

import java.util.List;

import sectorglass.image.SectorRanges;
import sectorglass.recovery.outcome.Wish;

/**
 * What a person wants of a read plan.
 *
 * @param chosen paths or patterns of files and folders wanted first; a folder means all below it
 * @param wishes further files wanted first, by name, folder, kind and date
 * @param later patterns of files that come last
 * @param allocated whether to read the rest of the allocated clusters
 * @param unallocated whether to read everything else, too
 * @param secondPass whether to try failed places again, after everything else
 * @param failedAgain failed sectors that resisted two passes or more: they come in a third pass, after the second
 * @param last sectors to leave until all others were read: those of weak heads
 * @param only sectors to plan at all, those of one head for instance; null for all
 * @param cost which gaps are read rather than left out
 */
public record PlanOptions(List<PathPattern> chosen, List<Wish> wishes, List<PathPattern> later, boolean allocated, boolean unallocated,
        boolean secondPass, SectorRanges failedAgain, SectorRanges last, SectorRanges only, ReadCost cost) {

    /** Files that hold nothing of a person's own: paging, hibernation, caches. Common practice, no source. */
    public static final List<PathPattern> USUALLY_LATER = List.of(new PathPattern("/pagefile.sys"), new PathPattern("/swapfile.sys"),
            new PathPattern("/hiberfil.sys"), new PathPattern("/Windows/Temp/**"), new PathPattern("/Windows/SoftwareDistribution/**"),
            new PathPattern("**/AppData/Local/Temp/**"), new PathPattern("**/Cache/**"), new PathPattern("**/INetCache/**"));

    /** Gaps are left out whatever that costs. */
    private static final ReadCost NO_GAPS = new ReadCost(1, 0);

    /** Everything allocated, the usual files later, a second pass at the end. */
    public static final PlanOptions DEFAULT = new PlanOptions(List.of(), USUALLY_LATER, true, false, true);

    /** A plan without heads, wishes and gaps. */
    public PlanOptions(List<PathPattern> chosen, List<PathPattern> later, boolean allocated, boolean unallocated, boolean secondPass) {
        this(chosen, List.of(), later, allocated, unallocated, secondPass, SectorRanges.EMPTY, SectorRanges.EMPTY, null, NO_GAPS);
    }

    /** The same with wishes. */
    public PlanOptions withWishes(List<Wish> wanted) {
        return new PlanOptions(chosen, List.copyOf(wanted), later, allocated, unallocated, secondPass, failedAgain, last, only, cost);
    }

    /** The same with heads: sectors to leave until last, and the only ones to plan or null. */
    public PlanOptions withHeads(SectorRanges weak, SectorRanges onlyThese) {
        return new PlanOptions(chosen, wishes, later, allocated, unallocated, secondPass, failedAgain, weak, onlyThese, cost);
    }

    /** The same with places for a third pass. */
    public PlanOptions withFailedAgain(SectorRanges again) {
        return new PlanOptions(chosen, wishes, later, allocated, unallocated, secondPass, again, last, only, cost);
    }

    /** The same with a cost. */
    public PlanOptions withCost(ReadCost given) {
        return new PlanOptions(chosen, wishes, later, allocated, unallocated, secondPass, failedAgain, last, only, given);
    }
}
