package sectorglass.recovery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.time.Instant;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Finding;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

class AcceptedFindingsTest {

    private static Finding finding(String check, long at) {
        return new Finding(1, check, Verdict.FAILED, Severity.AT_RISK, new ByteRange(at, 4), null, "1", "2", "what", "means", "advice", "source", null, null,
                SectorRanges.EMPTY, null, 1, Map.of());
    }

    private static Job.Accepted accepted(String check, Long at, String note) {
        return new Job.Accepted(Instant.EPOCH, "lab", check, at, note);
    }

    @Test
    void onePlaceOrAllOfACheck() {
        AcceptedFindings known = new AcceptedFindings(List.of(accepted("a", 512L, "here"), accepted("b", null, "everywhere"), accepted(null, 1L, "nothing")));
        assertEquals("here", known.of(finding("a", 512)).note());
        assertNull(known.of(finding("a", 1024)));
        assertEquals("everywhere", known.of(finding("b", 99)).note());
        assertNull(known.of(finding("c", 1)));
    }

    @Test
    void theLatestOneCounts() {
        AcceptedFindings known = new AcceptedFindings(List.of(accepted("a", null, "first"), accepted("a", 512L, "second")));
        assertEquals("second", known.of(finding("a", 512)).note());
        assertEquals(2, known.all(finding("a", 512)).size());
    }
}
