package sectorglass.decode.internal.run;

/** {@code array[index]}. */
public final class ElementAt extends Expr {
    private final Expr of;
    private final Expr index;

    /** An element of an array or of bytes. */
    public ElementAt(Expr of, Expr index, ValueType type) {
        super(type);
        this.of = of;
        this.index = index;
    }

    @Override
    public Object eval(StructNode self) {
        return Values.element(of.eval(self), index.asLong(self));
    }
}
