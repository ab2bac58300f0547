package sectorglass.decode.internal.run;

/** {@code .as<type>}: another static type for the same value; whole numbers become fractions where the type asks for it. */
public final class Retyped extends Expr {
    private final Expr of;

    /** The value with another type. */
    public Retyped(Expr of, ValueType type) {
        super(type);
        this.of = of;
    }

    @Override
    public Object eval(StructNode self) {
        Object value = of.eval(self);
        return switch (type().kind()) {
            case FLOAT -> value instanceof Long number ? (Object) number.doubleValue() : value;
            case INT -> value instanceof Double real ? (Object) real.longValue() : value instanceof Boolean ? (Object) toLong(value) : value;
            case BYTES -> Values.isArray(value) ? Values.bytes(value) : value;
            default -> value;
        };
    }

    @Override
    public long asLong(StructNode self) {
        return of.asLong(self);
    }

    @Override
    public boolean constant() {
        return of.constant();
    }
}
