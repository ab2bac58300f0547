package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** The names that begin with an underscore. */
public final class Surroundings extends Expr {
    /** Which name. */
    public enum Name { ROOT, PARENT, IO, INDEX, ITEM, SELF }

    private final Name name;

    /** The value of a name of the language. */
    public Surroundings(Name name, ValueType type) {
        super(type);
        this.name = name;
    }

    @Override
    public Object eval(StructNode self) {
        return switch (name) {
            case ROOT -> self.root;
            case PARENT -> there(self.owner);
            case IO -> self.io;
            case INDEX -> (long) self.run().index;
            case ITEM -> item(self).expressionValue();
            case SELF -> self;
        };
    }

    private static Object there(StructNode owner) {
        if (owner == null) {
            throw Undecided.of(Cause.NEEDS_ABSENT, "_parent");
        }
        return owner;
    }

    private static Node item(StructNode self) {
        Node item = self.run().item;
        if (item == null) {
            throw Undecided.of(Cause.NEEDS_ABSENT, "_");
        }
        return item;
    }

    @Override
    public long asLong(StructNode self) {
        return name == Name.INDEX ? self.run().index : name == Name.ITEM && item(self) instanceof ValueNode node ? node.longValue()
                : toLong(eval(self));
    }
}
