package sectorglass.decode.internal.run;

/** Computes a value instance. */
public final class ValueStep extends Step {
    private final FieldSpec spec;
    private final Expr expr;

    /** A step that computes an expression. */
    public ValueStep(FieldSpec spec, Expr expr) {
        this.spec = spec;
        this.expr = expr;
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream io, int index) {
        run.count();
        ValueNode node = new ValueNode(parent, spec, index, Run.startOf(self));
        try {
            switch (expr.type().kind()) {
                case INT, ENUM -> node.setLong(expr.asLong(self));
                case BOOL -> node.setBool(expr.asBool(self));
                case FLOAT -> node.setDouble(expr.asDouble(self));
                default -> node.setObject(expr.eval(self));
            }
        } catch (Undecided e) {
            node.trouble = e.trouble();
            return node;
        }
        if (spec.check() != null) {
            run.check(self, node);
        }
        return node;
    }
}
