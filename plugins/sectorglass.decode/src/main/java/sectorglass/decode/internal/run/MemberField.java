package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** A field of another structure whose type is known. */
public final class MemberField extends Expr {
    private final Expr of;
    private final FieldSpec field;

    /** The value of a field of a structure. */
    public MemberField(Expr of, FieldSpec field) {
        super(field.wholeType());
        this.of = of;
        this.field = field;
    }

    /** The field. */
    public FieldSpec field() {
        return field;
    }

    @Override
    public Object eval(StructNode self) {
        return valueIn(of.eval(self), field.owner(), field, field.id());
    }

    @Override
    public long asLong(StructNode self) {
        if (of.eval(self) instanceof StructNode struct && struct.type == field.owner() && field.place() != FieldSpec.Place.PARAM
                && struct.member(field) instanceof ValueNode node) {
            return node.longValue();
        }
        return toLong(eval(self));
    }

    static Object valueIn(Object target, TypeSpec type, FieldSpec field, String name) {
        if (!(target instanceof StructNode struct)) {
            throw Undecided.of(Cause.TYPE, "a structure", nameOf(target));
        }
        FieldSpec found = struct.type == type ? field : struct.type.members().get(name);
        if (found == null) {
            throw Undecided.of(Cause.NEEDS_ABSENT, name);
        }
        return struct.valueOf(found);
    }
}
