package sectorglass.decode.internal.run;

/** {@code condition ? yes : no}. */
public final class Choice extends Expr {
    private final Expr condition;
    private final Expr yes;
    private final Expr no;

    /** A choice of two values. */
    public Choice(Expr condition, Expr yes, Expr no, ValueType type) {
        super(type);
        this.condition = condition;
        this.yes = yes;
        this.no = no;
    }

    @Override
    public Object eval(StructNode self) {
        Expr chosen = condition.asBool(self) ? yes : no;
        return type().is(ValueType.Kind.FLOAT) ? (Object) chosen.asDouble(self) : chosen.eval(self);
    }

    @Override
    public long asLong(StructNode self) {
        return condition.asBool(self) ? yes.asLong(self) : no.asLong(self);
    }
}
