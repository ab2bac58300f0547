package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** Reads an instance at a position, perhaps in another stream, and puts that stream back. */
public final class PosStep extends Step {
    private final FieldSpec spec;
    private final Expr io;
    private final Expr pos;
    private final Step then;

    /**
     * A step.
     *
     * @param io the stream, or null for that of the structure
     * @param pos the position in it, or null for the present one
     */
    public PosStep(FieldSpec spec, Expr io, Expr pos, Step then) {
        this.spec = spec;
        this.io = io;
        this.pos = pos;
        this.then = then;
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream own, int index) {
        WindowStream stream = own;
        if (io != null) {
            Object other = io.eval(self);
            if (!(other instanceof WindowStream given)) {
                throw Undecided.of(Cause.TYPE, "a stream", Expr.nameOf(other));
            }
            stream = given;
        }
        long position = pos == null ? stream.pos() : pos.asLong(self);
        if (position < 0 || position > stream.size()) {
            ValueNode node = run.value(self, parent, spec, index, stream, position < 0 ? stream.start : stream.end);
            node.trouble = new Trouble(Cause.OUTSIDE, String.valueOf(position), String.valueOf(stream.size()));
            return node;
        }
        int at = stream.at;
        int bit = stream.bit;
        run.lost = null;
        try {
            if (pos != null) {
                stream.at = stream.start + (int) position;
                stream.bit = 0;
            }
            return then.read(run, self, parent, stream, index);
        } finally {
            stream.at = at;
            stream.bit = bit;
        }
    }
}
