package sectorglass.decode.internal.run;

import sectorglass.decode.internal.text.EnumTable;

/**
 * The static type of a value.
 *
 * @param kind what it is
 * @param unsigned64 an unsigned whole number of 64 bits, whose bits a long holds
 * @param struct the type of a structure, where known
 * @param enumeration the enumeration of an {@link Kind#ENUM}
 * @param element the type of the elements of an {@link Kind#ARRAY}
 */
public record ValueType(Kind kind, boolean unsigned64, TypeSpec struct, EnumTable enumeration, ValueType element) {

    /** Kinds of values; {@link #ANY} is known at run time only. */
    public enum Kind { INT, FLOAT, BOOL, STR, BYTES, ENUM, STRUCT, ARRAY, IO, ANY }

    /** Whole number. */
    public static final ValueType INT = of(Kind.INT);
    /** Whole number, unsigned, 64 bits. */
    public static final ValueType U64 = new ValueType(Kind.INT, true, null, null, null);
    /** Number with a fraction. */
    public static final ValueType FLOAT = of(Kind.FLOAT);
    /** Truth. */
    public static final ValueType BOOL = of(Kind.BOOL);
    /** Text. */
    public static final ValueType STR = of(Kind.STR);
    /** Bytes. */
    public static final ValueType BYTES = of(Kind.BYTES);
    /** A stream. */
    public static final ValueType IO = of(Kind.IO);
    /** Known at run time only. */
    public static final ValueType ANY = of(Kind.ANY);
    /** Some structure. */
    public static final ValueType STRUCT = of(Kind.STRUCT);

    private static ValueType of(Kind kind) {
        return new ValueType(kind, false, null, null, null);
    }

    /** A structure of a type. */
    public static ValueType struct(TypeSpec type) {
        return new ValueType(Kind.STRUCT, false, type, null, null);
    }

    /** A member of an enumeration. */
    public static ValueType of(EnumTable enumeration) {
        return new ValueType(Kind.ENUM, false, null, enumeration, null);
    }

    /** An array. */
    public static ValueType array(ValueType element) {
        return new ValueType(Kind.ARRAY, false, null, null, element);
    }

    /** Whether it is of the kind. */
    public boolean is(Kind other) {
        return kind == other;
    }

    /** Whether it is a whole number or a fraction. */
    public boolean number() {
        return kind == Kind.INT || kind == Kind.FLOAT;
    }

    /** The type of a value that is of this type or of the other one. */
    public ValueType or(ValueType other) {
        if (equals(other)) {
            return this;
        }
        if (kind == Kind.INT && other.kind == Kind.INT) {
            return INT;
        }
        if (number() && other.number()) {
            return FLOAT;
        }
        if (kind == Kind.STRUCT && other.kind == Kind.STRUCT) {
            return STRUCT;
        }
        return ANY;
    }

    /** In words for a message. */
    public String words() {
        return switch (kind) {
            case INT -> "a whole number";
            case FLOAT -> "a number with a fraction";
            case BOOL -> "true or false";
            case STR -> "text";
            case BYTES -> "bytes";
            case ENUM -> "a member of " + enumeration.name();
            case STRUCT -> struct == null ? "a structure" : "a structure of type " + struct.path();
            case ARRAY -> "an array";
            case IO -> "a stream";
            case ANY -> "a value known at run time only";
        };
    }

    @Override
    public String toString() {
        return words();
    }
}
