package sectorglass.decode.internal.run;

/** An expression or a read has no answer; caught at the field that needed it. Made without a stack trace. */
public final class Undecided extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient Trouble trouble;

    /** @param trouble why */
    public Undecided(Trouble trouble) {
        super(null, null, false, false);
        this.trouble = trouble;
    }

    /** The same with a cause and its arguments. */
    public static Undecided of(Trouble.Cause cause, Object... arguments) {
        return new Undecided(new Trouble(cause, arguments));
    }

    /** Why. */
    public Trouble trouble() {
        return trouble;
    }

    @Override
    public String getMessage() {
        return trouble.sentence();
    }
}
