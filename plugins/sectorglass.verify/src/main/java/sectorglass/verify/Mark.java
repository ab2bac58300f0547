package sectorglass.verify;

/** A verdict that was reported; later ones can name it as their cause. */
public final class Mark {
    final String rule;
    final Outcome outcome;

    Mark(String rule, Outcome outcome) {
        this.rule = rule;
        this.outcome = outcome;
    }

    /** The verdict given. */
    public Verdict verdict() {
        return outcome.verdict;
    }

    /** Whether the rule holds. */
    public boolean passed() {
        return outcome.verdict == Verdict.PASSED;
    }

    /** Whether the rule is broken. */
    public boolean failed() {
        return outcome.verdict == Verdict.FAILED;
    }
}
