package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** Reads an array. */
public final class RepeatStep extends Step {
    /** When it ends. */
    public enum Mode { COUNT, UNTIL, END }

    private final FieldSpec spec;
    private final Mode mode;
    private final Expr expr;
    private final Step element;

    /** @param expr the count or the condition; null for {@link Mode#END} */
    public RepeatStep(FieldSpec spec, Mode mode, Expr expr, Step element) {
        this.spec = spec;
        this.mode = mode;
        this.expr = expr;
        this.element = element;
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream io, int at) {
        if (!run.count()) {
            return null;
        }
        long count = Long.MAX_VALUE;
        Trouble noCount = null;
        if (mode == Mode.COUNT) {
            try {
                count = expr.asLong(self);
            } catch (Undecided e) {
                noCount = e.trouble();
            }
        }
        ArrayNode array = new ArrayNode(parent, spec, io, mode == Mode.COUNT ? (int) Math.max(0, Math.min(count, 256)) : 0);
        if (noCount != null) {
            array.trouble = noCount;
            run.lost = noCount;
            return array;
        }
        if (parent == self && self.slots[spec.slot()] == null) {
            self.slots[spec.slot()] = array;
        }
        int indexBefore = run.index;
        fill(run, self, array, io, count);
        run.index = indexBefore;
        array.finish();
        array.length = lengthOf(array, io);
        return array;
    }

    private static int lengthOf(ArrayNode array, WindowStream io) {
        return Math.max(0, io.index() - array.offset);
    }

    private void fill(Run run, StructNode self, ArrayNode array, WindowStream io, long count) {
        int idle = 0;
        for (long i = 0; i < count; i++) {
            if (mode == Mode.END && io.isEof()) {
                return;
            }
            int clips = run.clips;
            long before = (long) io.at << 3 | io.bit;
            run.index = (int) i;
            Node node = element.read(run, self, array, io, (int) i);
            if (node != null) {
                array.add(node);
            }
            if (run.stopped != null) {
                array.trouble = run.stopped;
                return;
            }
            if (run.lost != null) {
                array.trouble = run.lost;
                return;
            }
            if (mode == Mode.UNTIL && done(run, self, array, node)) {
                return;
            }
            if (run.clips != clips && io.isEof() && i + 1 < count) {
                if (mode != Mode.END) {
                    array.trouble = mode == Mode.COUNT ? new Trouble(Cause.FEWER, String.valueOf(array.size()), String.valueOf(count))
                            : new Trouble(Cause.NO_TERMINATOR);
                }
                return;
            }
            idle = ((long) io.at << 3 | io.bit) == before ? idle + 1 : 0;
            if (idle >= Limits.WITHOUT_PROGRESS && mode != Mode.COUNT || node == null && idle > Limits.WITHOUT_PROGRESS) {
                array.trouble = new Trouble(Cause.STUCK);
                run.lost = array.trouble;
                return;
            }
        }
    }

    private boolean done(Run run, StructNode self, ArrayNode array, Node node) {
        Node before = run.item;
        run.item = node;
        try {
            return expr.asBool(self);
        } catch (Undecided e) {
            boolean cut = node != null && node.trouble != null && node.trouble.cause() == Cause.END;
            array.trouble = cut ? new Trouble(Cause.NO_TERMINATOR) : e.trouble();
            run.lost = array.trouble;
            return true;
        } finally {
            run.item = before;
        }
    }
}
