package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** {@code -}, {@code ~}, {@code not}. */
public final class Unary extends Expr {
    private final char operator;
    private final Expr of;

    /** @param operator {@code -}, {@code ~} or {@code !} */
    public Unary(char operator, Expr of, ValueType type) {
        super(type);
        this.operator = operator;
        this.of = of;
    }

    @Override
    public Object eval(StructNode self) {
        if (operator == '!') {
            return !of.asBool(self);
        }
        Object value = of.eval(self);
        if (value instanceof Double real && operator == '-') {
            return -real;
        }
        if (!(value instanceof Long number)) {
            throw Undecided.of(Cause.TYPE, "a number", nameOf(value));
        }
        return operator == '-' ? -number : ~number;
    }

    @Override
    public boolean constant() {
        return of.constant();
    }
}
