package sectorglass.decode.internal.load;

/** An expression that parses but means nothing. */
final class CompileException extends Exception {
    private static final long serialVersionUID = 1L;

    private final int at;

    CompileException(int at, String sentence) {
        super(sentence, null, false, false);
        this.at = at;
    }

    int at() {
        return at;
    }
}
