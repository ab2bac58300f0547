package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** Reads bit fields. */
public final class BitsStep extends Step {
    private final FieldSpec spec;
    private final int width;
    private final boolean truth;

    /** @param width bits, 1 to 64 */
    public BitsStep(FieldSpec spec, int width) {
        this.spec = spec;
        this.width = width;
        this.truth = spec.is(ValueType.Kind.BOOL);
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream io, int index) {
        int at = io.at;
        int bit = io.bit;
        int bytes = (bit + width + 7) / 8;
        ValueNode node = run.value(self, parent, spec, index, io, at);
        if (io.end - at < bytes) {
            run.clip(node, io, bytes);
            return node;
        }
        node.length = bytes;
        node.setBits(bit, width);
        io.skipBits(width);
        if (!io.source.allRead() && !io.source.isRead(at, bytes)) {
            node.trouble = new Trouble(Cause.UNREAD);
            return node;
        }
        long value = WindowStream.bits(io.data, at, bit, width, spec.little());
        if (truth) {
            node.setBool(value != 0);
        } else {
            node.setLong(value);
        }
        if (spec.check() != null) {
            run.check(self, node);
        }
        return node;
    }
}
