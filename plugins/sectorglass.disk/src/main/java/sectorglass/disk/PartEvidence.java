package sectorglass.disk;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

import sectorglass.image.ByteRange;
import sectorglass.image.OpenImage;
import sectorglass.image.PartOrder;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Verdict;

/**
 * What the structures of a disk say about the order of the parts of its image: those that know their own place, and those that cross
 * the border of two parts and pass their checks. Parts whose sizes are no multiples of a sector are looked through byte by byte, too.
 */
public final class PartEvidence {
    /** Larger ranges are regions that verdicts speak of as a whole; a border inside proves nothing. */
    private static final long LARGEST_STRUCTURE = 1 << 20;

    private PartEvidence() {
    }

    /**
     * Judges the order of the parts.
     *
     * @param disk the survey of that image
     * @param findings of a run over it
     * @return null where the image has one part only, or lies in its files in another form than plain
     */
    public static PartOrder of(OpenImage image, Disk disk, Findings findings) {
        if (image.parts().size() < 2 || !image.dumpForm().form().withTrailer(0).plain()) {
            return null;
        }
        List<PartOrder.Sighting> sightings = new ArrayList<>();
        for (Witness witness : Survey.ofProviders().witnesses(disk)) {
            sightings.add(new PartOrder.Sighting(new ByteRange(witness.foundByte(), image.sectorSize()), witness.homeByte(), true, witness.structure()));
        }
        sound(findings).forEach((range, rule) -> sightings.add(new PartOrder.Sighting(range, -1, true, rule)));
        if (!PartScan.needed(image.parts())) {
            return PartOrder.of(image.parts(), sightings);
        }
        PartScan.Result scanned = new PartScan(image, image.parts(), disk).run();
        sightings.addAll(scanned.sightings());
        return PartOrder.of(image.parts(), sightings, scanned.grids(), scanned.follows());
    }

    /** Structures about which something passed and nothing else was said, with the rule. */
    private static Map<ByteRange, String> sound(Findings findings) {
        Map<ByteRange, String> passed = new HashMap<>();
        Set<ByteRange> doubtful = new HashSet<>();
        for (Finding finding : findings.all()) {
            if (finding.verdict() != Verdict.PASSED) {
                doubtful.add(finding.structure());
            } else if (finding.structure().length() <= LARGEST_STRUCTURE) {
                passed.putIfAbsent(finding.structure(), finding.check());
            }
        }
        passed.keySet().removeAll(doubtful);
        return passed;
    }
}
