package sectorglass.decode.internal.run;

/** A field, instance or parameter of the structure itself. */
public final class OwnField extends Expr {
    private final FieldSpec field;
    private final int slot;
    private final boolean param;

    /** The value of a field of the structure that the expression belongs to. */
    public OwnField(FieldSpec field) {
        super(field.wholeType());
        this.field = field;
        this.slot = field.slot();
        this.param = field.place() == FieldSpec.Place.PARAM;
    }

    /** The field. */
    public FieldSpec field() {
        return field;
    }

    @Override
    public Object eval(StructNode self) {
        return self.valueOf(field);
    }

    @Override
    public long asLong(StructNode self) {
        if (!param && self.slots[slot] instanceof ValueNode node) {
            return node.longValue();
        }
        return toLong(self.valueOf(field));
    }
}
