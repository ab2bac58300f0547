package sectorglass.decode.internal.run;

/** Reads by the first case that is equal to a value. */
public final class SwitchStep extends Step {
    private final FieldSpec spec;
    private final Expr on;
    private final Expr[] cases;
    private final Step[] steps;
    private final Step otherwise;
    private final Step undecided;
    private final long[] numbers;

    /**
     * A step.
     *
     * @param otherwise read where no case fits; null: the field does not exist then
     * @param undecided read where the value has no answer and the bounds are known all the same, or null
     */
    public SwitchStep(FieldSpec spec, Expr on, Expr[] cases, Step[] steps, Step otherwise, Step undecided) {
        this.spec = spec;
        this.on = on;
        this.cases = cases;
        this.steps = steps;
        this.otherwise = otherwise;
        this.undecided = undecided;
        this.numbers = numbers(on, cases);
    }

    private static long[] numbers(Expr on, Expr[] cases) {
        if (!on.type().is(ValueType.Kind.INT) && !on.type().is(ValueType.Kind.ENUM)) {
            return null;
        }
        long[] numbers = new long[cases.length];
        for (int i = 0; i < cases.length; i++) {
            if (!cases[i].constant() || !(cases[i].eval(null) instanceof Long number)) {
                return null;
            }
            numbers[i] = number;
        }
        return numbers;
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream io, int index) {
        Step chosen;
        try {
            chosen = choose(self);
        } catch (Undecided e) {
            if (undecided != null) {
                Node node = undecided.read(run, self, parent, io, index);
                if (node.trouble == null) {
                    node.trouble = e.trouble();
                }
                return node;
            }
            ValueNode node = run.value(self, parent, spec, index, io, io.index());
            node.trouble = e.trouble();
            run.lost = node.trouble;
            return node;
        }
        return chosen == null ? null : chosen.read(run, self, parent, io, index);
    }

    private Step choose(StructNode self) {
        if (numbers != null) {
            long value = on.asLong(self);
            for (int i = 0; i < numbers.length; i++) {
                if (numbers[i] == value) {
                    return steps[i];
                }
            }
            return otherwise;
        }
        Object value = on.eval(self);
        for (int i = 0; i < cases.length; i++) {
            if (Values.equal(value, cases[i].eval(self))) {
                return steps[i];
            }
        }
        return otherwise;
    }
}
