package sectorglass.recovery;

import java.util.List;

/**
 * What a person wants of a read plan.
 *
 * @param chosen paths or patterns of files and folders wanted first; a folder means all below it
 * @param later patterns of files that come last
 * @param allocated whether to read the rest of the allocated clusters
 * @param unallocated whether to read everything else, too
 * @param secondPass whether to try failed places again
 */
public record PlanOptions(List<PathPattern> chosen, List<PathPattern> later, boolean allocated, boolean unallocated, boolean secondPass) {

    /** Files that hold nothing of a person's own: paging, hibernation, caches. Common practice, no source. */
    public static final List<PathPattern> USUALLY_LATER = List.of(new PathPattern("/pagefile.sys"), new PathPattern("/swapfile.sys"),
            new PathPattern("/hiberfil.sys"), new PathPattern("/Windows/Temp/**"), new PathPattern("/Windows/SoftwareDistribution/**"),
            new PathPattern("**/AppData/Local/Temp/**"), new PathPattern("**/Cache/**"), new PathPattern("**/INetCache/**"));

    /** Everything allocated, the usual files later, a second pass at the end. */
    public static final PlanOptions DEFAULT = new PlanOptions(List.of(), USUALLY_LATER, true, false, true);
}
