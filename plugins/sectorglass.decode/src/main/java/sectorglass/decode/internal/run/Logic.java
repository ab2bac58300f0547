package sectorglass.decode.internal.run;

/** {@code and}, {@code or}: the right side is asked only where the left one does not decide. */
public final class Logic extends Expr {
    private final boolean or;
    private final Expr left;
    private final Expr right;

    /** @param or {@code or}, else {@code and} */
    public Logic(boolean or, Expr left, Expr right) {
        super(ValueType.BOOL);
        this.or = or;
        this.left = left;
        this.right = right;
    }

    @Override
    public Object eval(StructNode self) {
        return asBool(self);
    }

    @Override
    public boolean asBool(StructNode self) {
        return or ? left.asBool(self) || right.asBool(self) : left.asBool(self) && right.asBool(self);
    }
}
