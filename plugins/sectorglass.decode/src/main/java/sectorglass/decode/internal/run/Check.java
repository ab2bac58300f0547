package sectorglass.decode.internal.run;

/** What {@code valid} or {@code contents} asks of a value. */
public abstract class Check {

    /** What breaks the rule, or null; throws {@link Undecided} where the rule itself cannot be decided. */
    public abstract Trouble test(StructNode self, ValueNode value);

    /** A value that keeps the rule, where that is the same in every structure; else null. For tests that repair made-up bytes. */
    public Object example() {
        return null;
    }

    /** What is asked for, as text. */
    public abstract String expected();
}
