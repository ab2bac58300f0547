package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** Reads whole numbers and fractions of a fixed width. */
public final class IntStep extends Step {
    /** Byte order of a step: fixed, or that of the structure. */
    public enum Order { LITTLE, BIG, OF_STRUCT }

    private final FieldSpec spec;
    private final int width;
    private final boolean signed;
    private final boolean real;
    private final Order order;
    private final boolean checked;

    /** @param width bytes: 1, 2, 4 or 8 */
    public IntStep(FieldSpec spec, int width, boolean signed, boolean real, Order order) {
        this.spec = spec;
        this.width = width;
        this.signed = signed;
        this.real = real;
        this.order = order;
        this.checked = spec.check() != null;
    }

    @Override
    Node read(Run run, StructNode self, Node parent, WindowStream io, int index) {
        io.align();
        int at = io.at;
        ValueNode node = run.value(self, parent, spec, index, io, at);
        boolean undecided = order == Order.OF_STRUCT && width > 1 && !self.ordered;
        if (io.end - at < width) {
            run.clip(node, io, width);
            if (undecided) {
                node.trouble = noOrder(self);
            }
            return node;
        }
        node.length = width;
        io.at = at + width;
        if (!io.source.allRead() && !io.source.isRead(at, width)) {
            node.trouble = new Trouble(Cause.UNREAD);
            return node;
        }
        boolean little = order == Order.LITTLE;
        if (order == Order.OF_STRUCT && width > 1) {
            if (undecided) {
                node.trouble = noOrder(self);
                return node;
            }
            little = self.little;
        }
        long value = WindowStream.integer(io.data, at, width, signed, little);
        if (real) {
            node.setDouble(width == 4 ? Float.intBitsToFloat((int) value) : Double.longBitsToDouble(value));
        } else {
            node.setLong(value);
        }
        if (checked) {
            run.check(self, node);
        }
        return node;
    }

    private static Trouble noOrder(StructNode self) {
        return self.trouble != null ? self.trouble : new Trouble(Cause.ENDIAN);
    }
}
