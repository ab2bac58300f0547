package sectorglass.decode.internal.run;

/** Reads a field where a condition holds. */
public final class IfStep extends Step {
    private final FieldSpec spec;
    private final Expr condition;
    private final Step then;

    /** A step that reads {@code then} where the condition holds. */
    public IfStep(FieldSpec spec, Expr condition, Step then) {
        this.spec = spec;
        this.condition = condition;
        this.then = then;
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream io, int index) {
        try {
            if (!condition.asBool(self)) {
                return null;
            }
        } catch (Undecided e) {
            ValueNode node = run.value(self, parent, spec, index, io, io.index());
            node.trouble = e.trouble();
            run.lost = node.trouble;
            return node;
        }
        return then.read(run, self, parent, io, index);
    }
}
