package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/**
 * An expression ready to run. Values are {@link Long} (also for enumerations), {@link Double}, {@link Boolean}, {@link String},
 * {@code byte[]}, {@link StructNode}, {@link ArrayNode}, {@code Object[]} (an array made by an expression), {@link
 * WindowStream}. Each method throws {@link Undecided} where there is no answer.
 */
public abstract class Expr {
    private final ValueType type;

    protected Expr(ValueType type) {
        this.type = type;
    }

    /** Its static type. */
    public final ValueType type() {
        return type;
    }

    /** The value in a structure. */
    public abstract Object eval(StructNode self);

    /** The value as a whole number. */
    public long asLong(StructNode self) {
        return toLong(eval(self));
    }

    /** The value as a number. */
    public double asDouble(StructNode self) {
        Object value = eval(self);
        return value instanceof Number number ? number.doubleValue() : toLong(value);
    }

    /** The value as truth. */
    public boolean asBool(StructNode self) {
        Object value = eval(self);
        if (value instanceof Boolean truth) {
            return truth;
        }
        throw Undecided.of(Cause.TYPE, "true or false", nameOf(value));
    }

    /** Whether it is the same in every structure. */
    public boolean constant() {
        return false;
    }

    /** A value as a whole number. */
    public static long toLong(Object value) {
        if (value instanceof Long number) {
            return number;
        }
        if (value instanceof Boolean truth) {
            return truth ? 1 : 0;
        }
        if (value instanceof Double real) {
            return real.longValue();
        }
        throw Undecided.of(Cause.TYPE, "a whole number", nameOf(value));
    }

    /** What a value is, for a message. */
    public static String nameOf(Object value) {
        return value == null ? "nothing" : value instanceof Long ? "a whole number" : value instanceof Double ? "a number with a fraction"
                : value instanceof Boolean ? "true or false" : value instanceof String ? "text" : value instanceof byte[] ? "bytes"
                : value instanceof StructNode ? "a structure" : value instanceof WindowStream ? "a stream" : "an array";
    }
}
