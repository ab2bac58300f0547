package sectorglass.decode.internal.run;

/** Comparisons. Where a side is an unsigned 64-bit number and the other is not negative, they are unsigned. */
public final class Comparison extends Expr {
    /** Which. */
    public enum Operator { EQUAL, NOT_EQUAL, LESS, LESS_OR_EQUAL, GREATER, GREATER_OR_EQUAL }

    private final Operator operator;
    private final Expr left;
    private final Expr right;
    private final boolean whole;
    private final boolean unsigned;

    /** A comparison of two values. */
    public Comparison(Operator operator, Expr left, Expr right) {
        super(ValueType.BOOL);
        this.operator = operator;
        this.left = left;
        this.right = right;
        this.whole = isWhole(left) && isWhole(right);
        this.unsigned = left.type().unsigned64() && plain(right) || right.type().unsigned64() && plain(left);
    }

    private static boolean isWhole(Expr side) {
        return side.type().is(ValueType.Kind.INT) || side.type().is(ValueType.Kind.ENUM);
    }

    private static boolean plain(Expr side) {
        return side.type().unsigned64() || side.constant() && side.eval(null) instanceof Long number && number >= 0;
    }

    @Override
    public Object eval(StructNode self) {
        return asBool(self);
    }

    @Override
    public boolean asBool(StructNode self) {
        if (whole) {
            long a = left.asLong(self);
            long b = right.asLong(self);
            return a == b ? holds(0) : holds(unsigned ? Long.compareUnsigned(a, b) : Long.compare(a, b));
        }
        Object a = left.eval(self);
        Object b = right.eval(self);
        if (operator == Operator.EQUAL || operator == Operator.NOT_EQUAL) {
            return Values.equal(a, b) == (operator == Operator.EQUAL);
        }
        if (a instanceof Double x && x.isNaN() || b instanceof Double y && y.isNaN()) {
            return false;
        }
        return holds(Values.compare(a, b));
    }

    private boolean holds(int order) {
        return switch (operator) {
            case EQUAL -> order == 0;
            case NOT_EQUAL -> order != 0;
            case LESS -> order < 0;
            case LESS_OR_EQUAL -> order <= 0;
            case GREATER -> order > 0;
            case GREATER_OR_EQUAL -> order >= 0;
        };
    }
}
