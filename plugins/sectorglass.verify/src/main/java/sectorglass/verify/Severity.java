package sectorglass.verify;

/** How bad a failed check is, worst first. */
public enum Severity {
    /** The structure cannot serve. */
    UNUSABLE("unusable"),
    /** Data may be wrong or missed. */
    AT_RISK("at risk"),
    /** Nothing is lost by it. */
    COSMETIC("cosmetic");

    private final String word;

    Severity(String word) {
        this.word = word;
    }

    /** The word in JSON and texts. */
    public String word() {
        return word;
    }

    /** @throws IllegalArgumentException if no severity is called so */
    public static Severity of(String word) {
        for (Severity severity : values()) {
            if (severity.word.equals(word)) {
                return severity;
            }
        }
        throw new IllegalArgumentException("no severity \"" + word + "\"");
    }
}
