package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** {@code pos}, {@code size} and {@code eof} of a stream, and {@code _io} of a structure. */
public final class StreamMember extends Expr {
    /** Which member. */
    public enum Name { POS, SIZE, EOF, IO, PARENT, ROOT }

    private final Expr of;
    private final Name name;

    /** A member of a stream or, for {@link Name#IO}, {@link Name#PARENT} and {@link Name#ROOT}, of a structure. */
    public StreamMember(Expr of, Name name, ValueType type) {
        super(type);
        this.of = of;
        this.name = name;
    }

    @Override
    public Object eval(StructNode self) {
        Object target = of.eval(self);
        if (target instanceof WindowStream io) {
            switch (name) {
                case POS:
                    return (long) io.pos();
                case SIZE:
                    return io.size();
                case EOF:
                    return io.isEof();
                default:
                    break;
            }
        } else if (target instanceof StructNode struct) {
            switch (name) {
                case IO:
                    return struct.io;
                case PARENT:
                    if (struct.owner != null) {
                        return struct.owner;
                    }
                    throw Undecided.of(Cause.NEEDS_ABSENT, "_parent");
                case ROOT:
                    return struct.root;
                default:
                    break;
            }
        }
        throw Undecided.of(Cause.TYPE, name == Name.POS || name == Name.SIZE || name == Name.EOF ? "a stream" : "a structure", nameOf(target));
    }
}
