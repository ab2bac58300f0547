package sectorglass.decode.internal.run;

import java.util.List;

import sectorglass.decode.FieldNode;
import sectorglass.decode.internal.run.Trouble.Cause;
import sectorglass.image.SafeText;

/** A structure: its fields and instances by slot, and the surroundings its expressions use. */
public final class StructNode extends Node {
    /** In the slot of an instance that is being computed. */
    static final Node BUSY = new ArrayNodeMark();
    /** In the slot of an instance that does not exist. */
    static final Node ABSENT = new ArrayNodeMark();
    private static final Object[] NO_ARGUMENTS = {};

    final TypeSpec type;
    final WindowStream place;
    final WindowStream io;
    /** {@code _parent}, or null. */
    final StructNode owner;
    /** {@code _root}. */
    final StructNode root;
    final Node[] slots;
    Object[] arguments = NO_ARGUMENTS;
    boolean little;
    boolean ordered;

    StructNode(Node parent, FieldSpec spec, int index, int offset, TypeSpec type, WindowStream place, WindowStream io, StructNode owner,
            StructNode root) {
        super(parent, spec, index, offset);
        this.type = type;
        this.place = place;
        this.io = io;
        this.owner = owner;
        this.root = root == null ? this : root;
        this.slots = new Node[type.seq().length + type.instances().length];
    }

    /** A mark in a slot; never leaves this package. */
    private static final class ArrayNodeMark extends Node {
        ArrayNodeMark() {
            super(null, null, -1, 0);
        }

        @Override
        Object expressionValue() {
            throw new IllegalStateException();
        }

        @Override
        public Kind kind() {
            return Kind.VALUE;
        }

        @Override
        public String value() {
            return "";
        }
    }

    /** Its type. */
    public TypeSpec type() {
        return type;
    }

    /** The run it belongs to. */
    Run run() {
        return io.run();
    }

    @Override
    WindowStream place() {
        return place;
    }

    @Override
    WindowStream content() {
        return io;
    }

    @Override
    Object expressionValue() {
        return this;
    }

    /** The node of a field or instance; computes an instance. Throws {@link Undecided} where there is none. */
    Node member(FieldSpec field) {
        Node node = slots[field.slot()];
        if (node == null && field.place() == FieldSpec.Place.INSTANCE) {
            node = run().instance(this, field);
        }
        if (node == null || node == ABSENT) {
            throw Undecided.of(Cause.NEEDS_ABSENT, field.id());
        }
        if (node == BUSY) {
            throw Undecided.of(Cause.CYCLE, field.id());
        }
        return node;
    }

    /** The node of a field or instance, or null where it does not exist. */
    Node memberOrNull(FieldSpec field) {
        Node node = slots[field.slot()];
        if (node == null && field.place() == FieldSpec.Place.INSTANCE) {
            node = run().instance(this, field);
        }
        return node == ABSENT ? null : node;
    }

    /** The value of a field, instance or parameter. */
    Object valueOf(FieldSpec field) {
        if (field.place() == FieldSpec.Place.PARAM) {
            if (field.slot() >= arguments.length) {
                throw Undecided.of(Cause.NO_PARAM, field.id());
            }
            Object value = arguments[field.slot()];
            if (value instanceof Trouble trouble) {
                throw new Undecided(trouble.forDependent(field.id()));
            }
            return value;
        }
        return member(field).expressionValue();
    }

    @Override
    public Kind kind() {
        return Kind.STRUCT;
    }

    @Override
    public List<FieldNode> children() {
        int count = 0;
        for (Node node : slots) {
            count += node != null && node != ABSENT && node != BUSY ? 1 : 0;
        }
        if (count == slots.length) {
            return new NodeList(slots, count);
        }
        Node[] there = new Node[count];
        int i = 0;
        for (Node node : slots) {
            if (node != null && node != ABSENT && node != BUSY) {
                there[i++] = node;
            }
        }
        return new NodeList(there, count);
    }

    @Override
    public String value() {
        if (type.toText() == null) {
            return "";
        }
        try {
            return SafeText.of(String.valueOf(type.toText().eval(this)));
        } catch (Undecided e) {
            return "";
        }
    }
}
