package sectorglass.ext;

import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/**
 * Gathers verdicts of a bulk check: every failure is reported (a thousand per rule at most), passes and unread places once per rule
 * and scope.
 */
final class Tally {
    private static final int MOST = 1000;

    /** What came of one rule since the last flush. */
    static final class Sum {
        private int passed;
        private int failed;
        private SectorRanges unread = SectorRanges.EMPTY;

        /** Counts a pass. */
        void pass() {
            passed++;
        }
    }

    private final Checks all;
    private final Map<String, Sum> sums = new TreeMap<>();
    private final Map<String, Integer> failures = new HashMap<>();

    Tally(Checks all) {
        this.all = all;
    }

    /** Reports a failure; null where the rule has failed too often to be told once more. */
    Mark fail(String rule, ByteRange where, ByteRange structure, Outcome outcome) {
        sum(rule).failed++;
        return failures.merge(rule, 1, Integer::sum) > MOST ? null : all.in(structure).report(rule, where, outcome);
    }

    /** Reports what cannot be decided for another reason than unread sectors of its own. */
    void undecided(String rule, ByteRange where, ByteRange structure, Outcome outcome) {
        sum(rule).failed++;
        if (failures.merge(rule + " undecided", 1, Integer::sum) <= MOST) {
            all.in(structure).report(rule, where, outcome);
        }
    }

    /** Counts a pass. */
    void pass(String rule) {
        sum(rule).pass();
    }

    /** A rule could not be decided somewhere in the scope. */
    void unread(String rule, SectorRanges missing) {
        Sum sum = sum(rule);
        sum.unread = sum.unread.union(missing);
    }

    /** The sum of a rule, to be kept where it passes very often. */
    Sum sum(String rule) {
        return sums.computeIfAbsent(rule, r -> new Sum());
    }

    /** Reports what was gathered since the last call, for one scope. */
    void flush(ByteRange scope) {
        sums.forEach((rule, sum) -> {
            if (!sum.unread.isEmpty()) {
                all.in(scope).report(rule, scope, Outcome.unread(sum.unread));
            } else if (sum.passed > 0 && sum.failed == 0) {
                all.in(scope).report(rule, scope, Outcome.passed());
            }
            sum.passed = 0;
            sum.failed = 0;
            sum.unread = SectorRanges.EMPTY;
        });
    }

    /** How often a rule failed so far. */
    int failures(String rule) {
        return failures.getOrDefault(rule, 0);
    }
}
