package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** Operators where a side is no whole number, or its type is known at run time only. */
public final class GeneralArithmetic extends Expr {
    private final char operator;
    private final Expr left;
    private final Expr right;

    /** @param operator as in {@link Arithmetic} */
    public GeneralArithmetic(char operator, Expr left, Expr right, ValueType type) {
        super(type);
        this.operator = operator;
        this.left = left;
        this.right = right;
    }

    @Override
    public Object eval(StructNode self) {
        Object a = left.eval(self);
        Object b = right.eval(self);
        if (a instanceof Long x && b instanceof Long y) {
            return Arithmetic.apply(operator, x, y, left.type().unsigned64());
        }
        if (a instanceof String x && b instanceof String y && operator == '+') {
            self.run().made(x.length() + (long) y.length());
            return x + y;
        }
        if (a instanceof Number x && b instanceof Number y) {
            return real(x.doubleValue(), y.doubleValue());
        }
        throw Undecided.of(Cause.TYPE, nameOf(a), nameOf(b));
    }

    private double real(double a, double b) {
        return switch (operator) {
            case '+' -> a + b;
            case '-' -> a - b;
            case '*' -> a * b;
            case '/' -> a / b;
            case '%' -> a - Math.floor(a / b) * b;
            default -> throw Undecided.of(Cause.TYPE, "a whole number", "a number with a fraction");
        };
    }
}
