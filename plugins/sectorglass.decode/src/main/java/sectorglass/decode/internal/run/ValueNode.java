package sectorglass.decode.internal.run;

import java.util.Arrays;

import sectorglass.decode.internal.text.EnumTable;

/**
 * A single value. Numbers and truth lie in a long; text and bytes are a range of the stream's data until they are asked for.
 */
public sealed class ValueNode extends Node permits ForeignNode {
    private static final int NO_BITS = -1;

    /** The value's bits, or {@code from << 32 | count} of a range. */
    private long value;
    /** A made value: processed bytes, computed text, arrays, structures. */
    private Object object;
    private byte form;
    private byte firstBit = NO_BITS;
    private byte bitCount = NO_BITS;

    private static final byte EMPTY = 0;
    private static final byte LONG = 1;
    private static final byte DOUBLE = 2;
    private static final byte BOOL = 3;
    private static final byte RANGE = 4;
    private static final byte OBJECT = 5;

    ValueNode(Node parent, FieldSpec spec, int index, int offset) {
        super(parent, spec, index, offset);
    }

    void setLong(long newValue) {
        value = newValue;
        form = LONG;
    }

    void setDouble(double newValue) {
        value = Double.doubleToRawLongBits(newValue);
        form = DOUBLE;
    }

    void setBool(boolean newValue) {
        value = newValue ? 1 : 0;
        form = BOOL;
    }

    void setRange(int from, int count) {
        value = (long) from << 32 | count;
        form = RANGE;
    }

    void setObject(Object newObject) {
        if (newObject instanceof Long number) {
            setLong(number);
        } else if (newObject instanceof Boolean truth) {
            setBool(truth);
        } else if (newObject instanceof Double real) {
            setDouble(real);
        } else {
            object = newObject;
            form = OBJECT;
        }
    }

    void setBits(int first, int count) {
        firstBit = (byte) first;
        bitCount = (byte) count;
    }

    /** Takes the value away. */
    void clear(Trouble why) {
        form = EMPTY;
        trouble = why;
    }

    /** Whether there is a value. */
    boolean present() {
        return form != EMPTY;
    }

    long longValue() {
        if (form == EMPTY) {
            throw missing();
        }
        return form == DOUBLE ? (long) Double.longBitsToDouble(value) : form <= BOOL ? value : Expr.toLong(expressionValue());
    }

    private Undecided missing() {
        Trouble why = trouble == null ? new Trouble(Trouble.Cause.NEEDS_ABSENT, spec.id()) : trouble.forDependent(
                index < 0 ? spec.id() : spec.id() + "[" + index + "]");
        return new Undecided(why);
    }

    @Override
    Object expressionValue() {
        switch (form) {
            case LONG:
                return value;
            case DOUBLE:
                return Double.longBitsToDouble(value);
            case BOOL:
                return value != 0;
            case RANGE:
                return range();
            case OBJECT:
                if (object instanceof byte[] bytes && spec.charset() != null) {
                    object = spec.charset().decode(bytes, 0, bytes.length);
                }
                return object;
            default:
                throw missing();
        }
    }

    private Object range() {
        int from = (int) (value >>> 32);
        int count = (int) value;
        byte[] data = place().data;
        if (spec.charset() == null) {
            return Arrays.copyOfRange(data, from, from + count);
        }
        if (object == null) {
            object = spec.charset().decode(data, from, count);
        }
        return object;
    }

    /** Whether the bytes of the value are exactly these; only for values that hold bytes. */
    boolean sameBytes(byte[] other) {
        if (form != RANGE) {
            return expressionValue() instanceof byte[] mine && Arrays.equals(mine, other);
        }
        int from = (int) (value >>> 32);
        return Arrays.equals(place().data, from, from + (int) value, other, 0, other.length);
    }

    @Override
    public Kind kind() {
        return Kind.VALUE;
    }

    @Override
    public int bit() {
        return firstBit;
    }

    @Override
    public int bits() {
        return bitCount;
    }

    @Override
    public boolean bitsFromLeast() {
        return bitCount >= 0 && spec.little();
    }

    @Override
    public String expected() {
        return spec.check() == null ? null : spec.check().expected();
    }

    @Override
    public Object raw() {
        if (form == EMPTY) {
            return null;
        }
        try {
            Object made = expressionValue();
            return made instanceof Number || made instanceof Boolean || made instanceof String || made instanceof byte[] ? made : null;
        } catch (Undecided e) {
            return null;
        }
    }

    @Override
    public String value() {
        if (form == OBJECT && (object instanceof Node || object instanceof WindowStream || object instanceof Object[])) {
            return spec.presentation().other(object);
        }
        return spec.presentation().value(raw(), unsigned64(), spec.type().enumeration());
    }

    @Override
    public String meaning() {
        return form == EMPTY ? null : spec.presentation().meaning(raw(), unsigned64(), spec.type().enumeration());
    }

    @Override
    public java.util.Map<Long, String> choices() {
        java.util.Map<Long, String> all = new java.util.LinkedHashMap<>();
        if (spec.type().enumeration() != null) {
            spec.type().enumeration().members().forEach(member -> all.put(member.value(), member.words()));
        }
        return all;
    }

    @Override
    public String meaningDoc() {
        EnumTable table = spec.type().enumeration();
        EnumTable.Member member = table == null || form != LONG ? null : table.find(value);
        return member == null ? null : member.doc();
    }

    @Override
    public String unit() {
        return spec.presentation().unit();
    }

    @Override
    public Link link() {
        return form == LONG ? spec.presentation().link(value) : null;
    }

    @Override
    public boolean unsigned64() {
        return spec.type().unsigned64();
    }
}
