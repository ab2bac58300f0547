package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** Operators on whole numbers; they wrap at 64 bits. Division and remainder round down, as the language says. */
public final class Arithmetic extends Expr {
    private final char operator;
    private final Expr left;
    private final Expr right;
    private final boolean unsigned;

    /** @param operator one of {@code + - * / % & | ^ < >}; the last two are shifts */
    public Arithmetic(char operator, Expr left, Expr right) {
        super(ValueType.INT);
        this.operator = operator;
        this.left = left;
        this.right = right;
        this.unsigned = left.type().unsigned64();
    }

    @Override
    public Object eval(StructNode self) {
        return asLong(self);
    }

    @Override
    public long asLong(StructNode self) {
        return apply(operator, left.asLong(self), right.asLong(self), unsigned);
    }

    @Override
    public boolean constant() {
        return operator != '/' && operator != '%' && left.constant() && right.constant();
    }

    static long apply(char operator, long a, long b, boolean unsigned) {
        switch (operator) {
            case '+':
                return a + b;
            case '-':
                return a - b;
            case '*':
                return a * b;
            case '&':
                return a & b;
            case '|':
                return a | b;
            case '^':
                return a ^ b;
            case '<':
                return b < 0 || b > 63 ? 0 : a << b;
            case '>':
                return unsigned ? b < 0 || b > 63 ? 0 : a >>> b : a >> Math.max(0, Math.min(63, b));
            default:
                if (b == 0) {
                    throw Undecided.of(Cause.DIVISION);
                }
                if (operator == '/') {
                    return unsigned ? Long.divideUnsigned(a, b) : Math.floorDiv(a, b);
                }
                return unsigned ? Long.remainderUnsigned(a, b) : Math.floorMod(a, b);
        }
    }
}
