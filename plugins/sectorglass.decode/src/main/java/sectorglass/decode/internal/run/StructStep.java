package sectorglass.decode.internal.run;

import java.util.Arrays;

/** Reads structures, whole or bounded. */
public final class StructStep extends Step {
    private final FieldSpec spec;
    private final TypeSpec type;
    private final Expr[] arguments;
    private final Extent extent;
    private final Process process;
    private final boolean orphan;
    private final Expr parentExpr;
    private final boolean sameRoot;

    /**
     * A step.
     *
     * @param arguments values for the type's parameters
     * @param extent the bytes that bound it, or null
     * @param process applied to those bytes, or null
     * @param orphan whether it has no {@code _parent}
     * @param parentExpr its {@code _parent}, or null where that is the structure it is in
     */
    public StructStep(FieldSpec spec, TypeSpec type, Expr[] arguments, Extent extent, Process process, boolean orphan, Expr parentExpr) {
        this.spec = spec;
        this.type = type;
        this.arguments = arguments;
        this.extent = extent;
        this.process = process;
        boolean external = type.top() != spec.owner().top() && type.outer() == null;
        this.orphan = orphan || external;
        this.parentExpr = parentExpr;
        this.sameRoot = type.top() == spec.owner().top();
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream io, int index) {
        if (!run.count() || run.tooDeep()) {
            ValueNode ended = new ValueNode(parent, spec, index, io.index());
            ended.trouble = run.stopped != null ? run.stopped : run.depthTrouble();
            run.lost = ended.trouble;
            return ended;
        }
        Object[] values = arguments(self);
        if (extent == null) {
            StructNode node = new StructNode(parent, spec, index, io.index(), type, io, io, owner(self), sameRoot ? self.root : null);
            fill(run, self, node, values);
            node.length = Math.max(0, io.index() - node.offset);
            return node;
        }
        return bounded(run, self, parent, io, index, values);
    }

    private Node bounded(Run run, StructNode self, Node parent, WindowStream io, int index, Object[] values) {
        extent.measure(run, self, io);
        Measure m = run.measure;
        int offset = m.offset;
        int length = m.length;
        Trouble trouble = m.trouble;
        WindowStream content = io.part(m.from, m.to);
        if (process != null || trouble != null && run.lost != null) {
            ValueNode raw = run.value(self, parent, spec, index, io, offset);
            raw.length = length;
            raw.trouble = trouble;
            if (!m.present) {
                return raw;
            }
            try {
                byte[] made = process.apply(self, Arrays.copyOfRange(io.data, m.from, m.to));
                content = new WindowStream(new Source(run, made, null, true, raw), 0, made.length);
            } catch (Undecided e) {
                raw.trouble = trouble == null ? e.trouble() : trouble; // what is cut off cannot be processed
                return raw;
            }
        }
        StructNode node = new StructNode(parent, spec, index, offset, type, io, content, owner(self), sameRoot ? self.root : null);
        node.length = length;
        // unread bytes are marked at the fields inside
        node.trouble = trouble != null && trouble.cause() == Trouble.Cause.UNREAD ? null : trouble;
        fill(run, self, node, values);
        run.lost = null;
        return node;
    }

    private void fill(Run run, StructNode self, StructNode node, Object[] values) {
        node.arguments = values;
        Node[] slots = self.slots;
        if (node.parent == self && spec.place() != FieldSpec.Place.PARAM && slots[spec.slot()] == null) {
            slots[spec.slot()] = node; // its own fields may be asked for through _parent while it is read
        }
        int indexBefore = run.index;
        Node itemBefore = run.item;
        run.order(node, self);
        run.sequence(node);
        run.index = indexBefore;
        run.item = itemBefore;
    }

    private StructNode owner(StructNode self) {
        if (orphan) {
            return null;
        }
        if (parentExpr == null) {
            return self;
        }
        try {
            return parentExpr.eval(self) instanceof StructNode struct ? struct : null;
        } catch (Undecided e) {
            return null;
        }
    }

    private Object[] arguments(StructNode self) {
        Object[] values = new Object[arguments.length];
        for (int i = 0; i < values.length; i++) {
            try {
                values[i] = arguments[i].eval(self);
            } catch (Undecided e) {
                values[i] = e.trouble();
            }
        }
        return values;
    }
}
