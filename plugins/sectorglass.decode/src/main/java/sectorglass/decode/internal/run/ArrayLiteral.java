package sectorglass.decode.internal.run;

/** {@code [a, b]}: bytes where the type says so, else an array. */
public final class ArrayLiteral extends Expr {
    private final Expr[] items;

    /** An array of values. */
    public ArrayLiteral(Expr[] items, ValueType type) {
        super(type);
        this.items = items;
    }

    /** The values. */
    public Expr[] items() {
        return items;
    }

    @Override
    public Object eval(StructNode self) {
        if (type().is(ValueType.Kind.BYTES)) {
            byte[] bytes = new byte[items.length];
            for (int i = 0; i < bytes.length; i++) {
                bytes[i] = (byte) items[i].asLong(self);
            }
            return bytes;
        }
        Object[] values = new Object[items.length];
        for (int i = 0; i < values.length; i++) {
            values[i] = items[i].eval(self);
        }
        return values;
    }
}
