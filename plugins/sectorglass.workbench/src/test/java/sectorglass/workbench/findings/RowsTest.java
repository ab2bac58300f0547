package sectorglass.workbench.findings;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

import org.junit.jupiter.api.Test;

import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
import sectorglass.verify.Finding;
import sectorglass.verify.Severity;
import sectorglass.workbench.look.Sign;

class RowsTest {
    private static final Set<Sign> ALL = EnumSet.allOf(Sign.class);

    private static Question question(Set<Sign> signs, int volume, String words, Grouping grouping, FindingColumn order, boolean backwards,
            String... closed) {
        return new Question(signs, volume, Acceptance.ANY, AcceptedFindings.NONE, words, grouping, order, backwards, Set.of(closed));
    }

    private static List<Integer> ids(List<Finding> findings) {
        return findings.stream().map(Finding::id).toList();
    }

    private static List<String> rows(Question question) {
        return Rows.of(Sample.some(), question).rows().stream()
                .map(row -> (row.head() ? "+" + row.below() : "") + " ".repeat(row.depth()) + (row.finding() == null ? "" : row.finding().id()))
                .toList();
    }

    @Test
    void gravestComeFirstAndThoseThatFollowFromOthersAreLeftOut() {
        Rows rows = Rows.of(Sample.some(), question(ALL, Question.ALL, "", Grouping.NONE, FindingColumn.SEVERITY, false));
        assertEquals(List.of(1, 2, 6, 4, 5), ids(rows.shown()));
    }

    @Test
    void backwardsTurnsTheRankButNotThePlaces() {
        Rows rows = Rows.of(Sample.some(), question(ALL, Question.ALL, "", Grouping.NONE, FindingColumn.SEVERITY, true));
        assertEquals(List.of(5, 6, 4, 2, 1), ids(rows.shown()));
    }

    @Test
    void severityVolumeAndWordsFilter() {
        assertEquals(List.of(1), ids(Rows.of(Sample.some(), question(EnumSet.of(Sign.UNUSABLE), Question.ALL, "", Grouping.NONE,
                FindingColumn.WHERE, false)).shown()));
        assertEquals(List.of(4), ids(Rows.of(Sample.some(), question(ALL, 1, "", Grouping.NONE, FindingColumn.WHERE, false)).shown()));
        assertEquals(List.of(1, 2, 6), ids(Rows.of(Sample.some(), question(ALL, Question.OUTSIDE, "", Grouping.NONE, FindingColumn.WHERE, false))
                .shown()));
        assertEquals(List.of(2, 6), ids(Rows.of(Sample.some(), question(ALL, Question.ALL, "header", Grouping.NONE, FindingColumn.WHERE, false))
                .shown()));
    }

    @Test
    void acceptedFindingsAreAskedForOrLeftOut() {
        AcceptedFindings accepted = new AcceptedFindings(List.of(new Job.Accepted(Instant.EPOCH, "lab", "gpt.header.crc32", 528L, "Customer knows")));
        assertEquals(List.of(1, 4, 5, 6), asked(Acceptance.OPEN, accepted, ""));
        assertEquals(List.of(2), asked(Acceptance.ACCEPTED, accepted, ""));
        assertEquals(List.of(1, 2, 4, 5, 6), asked(Acceptance.ANY, accepted, ""));
        assertEquals(List.of(2), asked(Acceptance.ANY, accepted, "customer"), "words of the reason");
    }

    private static List<Integer> asked(Acceptance acceptance, AcceptedFindings accepted, String words) {
        Question question = new Question(ALL, Question.ALL, acceptance, accepted, words, Grouping.NONE, FindingColumn.WHERE, false, Set.of());
        return ids(Rows.of(Sample.some(), question).shown()).stream().sorted().toList();
    }

    @Test
    void findingsOfOneStructureStandUnderItsHead() {
        // 2 and 6 lie in the sector from byte 512
        assertEquals(List.of("+1", " 1", "+2", " 2", " 6", "+1", " 4", "+1", " 5"),
                rows(question(ALL, Question.ALL, "", Grouping.STRUCTURE, FindingColumn.WHERE, false)));
    }

    @Test
    void aClosedGroupShowsItsHeadAlone() {
        assertEquals(List.of("+1", " 1", "+2", "+1", " 4", "+1", " 5"),
                rows(question(ALL, Question.ALL, "", Grouping.STRUCTURE, FindingColumn.WHERE, false, "512+512")));
    }

    @Test
    void whatFollowsStandsUnderItsCause() {
        assertEquals(List.of("1", "+12", " 3", "6", "4", "5"), rows(question(ALL, Question.ALL, "", Grouping.CAUSE, FindingColumn.WHERE, false)));
    }

    @Test
    void aRingOfCausesEnds() {
        List<Finding> ring = List.of(Sample.finding(1, "a", Severity.AT_RISK, 0, null, 2), Sample.finding(2, "b", Severity.AT_RISK, 8, null, 1));
        assertEquals(List.of(), Rows.of(ring, question(ALL, Question.ALL, "", Grouping.CAUSE, FindingColumn.WHERE, false)).rows());
    }

    @Test
    void theHeadOfAGroupHasItsGravestSign() {
        Row head = Rows.of(Sample.some(), question(ALL, Question.ALL, "", Grouping.STRUCTURE, FindingColumn.WHERE, false)).rows().get(2);
        assertEquals(Sign.AT_RISK, head.worst());
    }

    @Test
    void aHundredThousandFindingsAreGroupedWithoutDelay() {
        List<Finding> many = new ArrayList<>();
        for (int i = 0; i < 100_000; i++) {
            many.add(Sample.finding(i + 1, "ntfs.record." + i % 7, i % 3 == 0 ? Severity.AT_RISK : Severity.COSMETIC, i * 1024L, 1, null));
        }
        Rows rows = null;
        long best = Long.MAX_VALUE;
        // processor time of this thread: the clock would count other work on the machine
        java.lang.management.ThreadMXBean threads = java.lang.management.ManagementFactory.getThreadMXBean();
        for (int i = 0; i < 3; i++) {
            long began = threads.getCurrentThreadCpuTime();
            rows = Rows.of(many, question(ALL, 1, "what", Grouping.STRUCTURE, FindingColumn.SEVERITY, false));
            best = Math.min(best, threads.getCurrentThreadCpuTime() - began);
        }
        assertEquals(200_000, rows.rows().size());
        assertTrue(best < 2_000_000_000L, "ms: " + best / 1_000_000);
    }
}
