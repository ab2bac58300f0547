package sectorglass.verify;

import java.util.HashMap;
import java.util.Map;
import java.util.function.Supplier;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.UnreadException;

/**
 * Verdicts of rules that are asked a million times: each failure is reported where it stands, as far as a person can read them; a rule
 * that never failed is reported once for the volume.
 */
public final class Tally {

    /** Failures of one rule that are reported one by one. */
    public static final int MOST = 400;

    private final Checks out;
    private final ByteRange volume;
    private final Map<String, Integer> failures = new HashMap<>();
    private final Map<String, SectorRanges> missing = new HashMap<>();

    /** @param volume the bytes that a verdict about the whole volume points at */
    public Tally(Checks out, ByteRange volume) {
        this.out = out;
        this.volume = volume;
    }

    /** Reports a failure. @return its mark, or null where there were too many of its rule already */
    public Mark fail(String rule, ByteRange structure, ByteRange where, Outcome outcome) {
        int before = failures.merge(rule, 1, Integer::sum);
        return before > MOST ? null : out.in(structure).report(rule, where, outcome);
    }

    /**
     * Runs a test as {@link Checks#check} does: what fails or cannot be decided is reported, unread sectors are noted, passes wait for
     * {@link #finish}.
     *
     * @param test null means that the rule does not apply
     * @return the mark, or null where the rule did not apply
     */
    public Mark check(String rule, ByteRange structure, ByteRange where, Supplier<Outcome> test) {
        Outcome outcome;
        try {
            outcome = test.get();
        } catch (UnreadException e) {
            outcome = Outcome.unread(e.missing());
        }
        if (outcome == null) {
            return null;
        }
        Mark reported = null;
        if (outcome.verdict == Verdict.NOT_CHECKED && !outcome.missing.isEmpty()) {
            unread(rule, outcome.missing);
        } else if (outcome.verdict != Verdict.PASSED) {
            reported = fail(rule, structure, where, outcome);
        }
        return reported == null ? new Mark(rule, outcome) : reported;
    }

    /** Notes that the rule could not be answered everywhere. */
    public void unread(String rule, SectorRanges sectors) {
        missing.merge(rule, sectors, SectorRanges::union);
    }

    /** Gives each rule its verdict about the rest of the volume. */
    public void finish(Iterable<String> rules, Mark lead) {
        for (String rule : rules) {
            int failed = failures.getOrDefault(rule, 0);
            SectorRanges gaps = missing.getOrDefault(rule, SectorRanges.EMPTY);
            if (failed > MOST) {
                out.in(volume).report(rule, volume, Outcome.failed(failed - MOST + " places more", "none")
                        .with("path", "the volume").with("cluster", "–"));
            }
            if (!gaps.isEmpty()) {
                out.in(volume).report(rule, volume, Outcome.unread(gaps).with("path", "the volume"));
            } else if (failed == 0) {
                out.in(volume).report(rule, volume, lead == null ? Outcome.passed()
                        : Outcome.undecided("the folder tree could not be followed").because(lead));
            }
        }
    }
}
