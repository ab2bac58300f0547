package sectorglass.verify;

/** The three answers of a check. */
public enum Verdict {
    /** The rule holds. */
    PASSED("passed"),
    /** The rule is broken. */
    FAILED("failed"),
    /** The bytes read cannot decide it. */
    NOT_CHECKED("not checked");

    private final String word;

    Verdict(String word) {
        this.word = word;
    }

    /** The word in JSON and texts. */
    public String word() {
        return word;
    }
}
