package sectorglass.decode.internal.expr;

import java.util.List;

/** An expression as it was written. {@code at} is the number of characters before the part it names. */
public sealed interface Ast {

    /** Characters before it, in the text of the expression. */
    int at();

    /** A whole number; {@code big}: its bits, the value is above {@link Long#MAX_VALUE}. */
    record Int(int at, long value, boolean big) implements Ast { }

    /** A number with a fraction. */
    record Real(int at, double value) implements Ast { }

    /** {@code true} or {@code false}. */
    record Bool(int at, boolean value) implements Ast { }

    /** A string. */
    record Text(int at, String value) implements Ast { }

    /** A string with values in it. */
    record Format(int at, List<Ast> parts) implements Ast { }

    /** A name: a field, or one that begins with an underscore and belongs to the language. */
    record Name(int at, String name) implements Ast { }

    /** {@code a::b::c}: a member of an enumeration. */
    record EnumMember(int at, List<String> path) implements Ast { }

    /** {@code [a, b]}. */
    record Array(int at, List<Ast> items) implements Ast { }

    /** {@code of.name}. */
    record Member(int at, Ast of, String name) implements Ast { }

    /** {@code of.name(a, b)}. */
    record Call(int at, Ast of, String name, List<Ast> arguments) implements Ast { }

    /** {@code of.as<type>}. */
    record Cast(int at, Ast of, String type) implements Ast { }

    /** {@code sizeof<type>} or {@code bitsizeof<type>}. */
    record SizeOf(int at, String type, boolean bits) implements Ast { }

    /** {@code of[index]}. */
    record Index(int at, Ast of, Ast index) implements Ast { }

    /** {@code -a}, {@code ~a}, {@code not a}. */
    record Unary(int at, String operator, Ast of) implements Ast { }

    /** {@code a operator b}. */
    record Binary(int at, String operator, Ast left, Ast right) implements Ast { }

    /** {@code condition ? yes : no}. */
    record Choice(int at, Ast condition, Ast yes, Ast no) implements Ast { }
}
