package sectorglass.decode.internal.run;

/** A value that is always the same. */
public final class Constant extends Expr {
    private final Object value;
    private final long number;

    /** A constant of a type. */
    public Constant(ValueType type, Object value) {
        super(type);
        this.value = value;
        this.number = value instanceof Long whole ? whole : 0;
    }

    @Override
    public Object eval(StructNode self) {
        return value;
    }

    @Override
    public long asLong(StructNode self) {
        return value instanceof Long ? number : toLong(value);
    }

    @Override
    public boolean constant() {
        return true;
    }
}
