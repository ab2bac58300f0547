package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/** Members and methods of values that are no structures (Kaitai Struct User Guide, section 6.4). */
public final class Methods extends Expr {
    private final Expr of;
    private final String name;
    private final Expr[] arguments;
    private final int given;

    /** A member ({@code arguments} empty) or method of a value. */
    public Methods(Expr of, String name, Expr[] arguments, ValueType type) {
        super(type);
        this.of = of;
        this.name = name;
        this.arguments = arguments;
        this.given = arguments.length;
    }

    @Override
    public Object eval(StructNode self) {
        Object target = of.eval(self);
        if (target instanceof StructNode struct && given == 0) {
            return struct(struct);
        }
        if (target instanceof WindowStream io) {
            return switch (name) {
                case "pos" -> (long) io.pos();
                case "size" -> io.size();
                case "eof" -> io.isEof();
                default -> throw unknown(target);
            };
        }
        if (target instanceof String text) {
            return text(self, text);
        }
        if (Values.isArray(target)) {
            return array(self, target);
        }
        return switch (name) {
            case "to_i" -> toLong(target);
            case "to_s" -> text(target, of.type().unsigned64());
            default -> throw unknown(target);
        };
    }

    private Object struct(StructNode struct) {
        return switch (name) {
            case "_io" -> struct.io;
            case "_root" -> struct.root;
            case "_parent" -> {
                if (struct.owner == null) {
                    throw Undecided.of(Cause.NEEDS_ABSENT, name);
                }
                yield struct.owner;
            }
            default -> MemberField.valueIn(struct, null, null, name);
        };
    }

    private Undecided unknown(Object target) {
        return Undecided.of(Cause.TYPE, "." + name, nameOf(target));
    }

    /** A value as text. */
    static String text(Object value, boolean unsigned) {
        if (value instanceof Long number) {
            return unsigned ? Long.toUnsignedString(number) : number.toString();
        }
        if (value instanceof String || value instanceof Boolean || value instanceof Double) {
            return value.toString();
        }
        throw Undecided.of(Cause.TYPE, "a number or text", nameOf(value));
    }

    private Object text(StructNode self, String text) {
        switch (name) {
            case "length":
                return (long) text.codePointCount(0, text.length());
            case "reverse":
                return new StringBuilder(text).reverse().toString();
            case "to_s":
                return text;
            case "to_i":
                return parse(text, given == 0 ? 10 : (int) arguments[0].asLong(self));
            case "substring": {
                long from = arguments[0].asLong(self);
                long to = arguments[1].asLong(self);
                int length = text.codePointCount(0, text.length());
                if (from < 0 || to < from || to > length) {
                    throw Undecided.of(Cause.INDEX, from + " to " + to, String.valueOf(length));
                }
                int first = text.offsetByCodePoints(0, (int) from);
                return text.substring(first, text.offsetByCodePoints(first, (int) (to - from)));
            }
            default:
                throw unknown(text);
        }
    }

    private static long parse(String text, int radix) {
        try {
            return Long.parseLong(text, radix);
        } catch (NumberFormatException e) {
            try {
                return Long.parseUnsignedLong(text, radix);
            } catch (NumberFormatException f) {
                throw Undecided.of(Cause.CONVERSION, text.length() > 40 ? text.substring(0, 40) + "…" : text);
            }
        }
    }

    private Object array(StructNode self, Object array) {
        switch (name) {
            case "size", "length":
                return (long) Values.size(array);
            case "first":
                return Values.element(array, 0);
            case "last":
                return Values.element(array, Values.size(array) - 1L);
            case "min", "max":
                return extreme(array);
            case "to_s":
                return decode(self, array);
            default:
                throw unknown(array);
        }
    }

    private Object extreme(Object array) {
        Object best = Values.element(array, 0);
        int size = Values.size(array);
        for (int i = 1; i < size; i++) {
            Object next = Values.element(array, i);
            int order = Values.compare(next, best);
            if (name.equals("min") ? order < 0 : order > 0) {
                best = next;
            }
        }
        return best;
    }

    private Object decode(StructNode self, Object array) {
        if (given == 0) {
            throw unknown(array);
        }
        byte[] bytes = Values.bytes(array);
        self.run().made(bytes.length);
        return Charsets.of((String) arguments[0].eval(self)).decode(bytes, 0, bytes.length);
    }
}
