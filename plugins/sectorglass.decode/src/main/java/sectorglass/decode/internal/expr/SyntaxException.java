package sectorglass.decode.internal.expr;

/** An expression that cannot be parsed. */
public final class SyntaxException extends Exception {
    private static final long serialVersionUID = 1L;

    private final int at;

    /**
     * @param at characters before the place, in the text of the expression
     * @param sentence what is wrong
     */
    public SyntaxException(int at, String sentence) {
        super(sentence, null, false, false);
        this.at = at;
    }

    /** Characters before the place, in the text of the expression. */
    public int at() {
        return at;
    }
}
