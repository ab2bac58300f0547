package sectorglass.practice.disk;

import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.practice.fault.Spot;
import sectorglass.verify.Finding;

/** Whether a finding is the one that a planted fault must bring. */
final class FaultMatch {

    private FaultMatch() {
    }

    /** The check is the right one, and it points at the changed bytes, or where the kind of fault says that it points. */
    static boolean finds(Finding finding, FaultDrawing.Planted planted) {
        if (!finding.check().equals(planted.kind().check())) {
            return false;
        }
        List<Spot> at = planted.seen() != null ? List.of(planted.seen()) : planted.spots();
        return at.stream().map(spot -> new ByteRange(spot.firstByte(), spot.right().length)).anyMatch(finding.where()::overlaps);
    }
}
