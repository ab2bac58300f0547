package sectorglass.decode.internal.expr;

/**
 * A word of an expression.
 *
 * @param kind what it is
 * @param text the name or operator; the characters of a string without quotes and escapes
 * @param at characters before it
 * @param number the value of an {@link Kind#INT}, its bits where it is above {@link Long#MAX_VALUE}
 * @param real the value of a {@link Kind#FLOAT}
 */
record Token(Kind kind, String text, int at, long number, double real) {

    enum Kind { NAME, INT, BIG_INT, FLOAT, STRING, FORMAT_STRING, OPERATOR, END }

    boolean is(String operator) {
        return kind == Kind.OPERATOR && text.equals(operator);
    }

    boolean word(String name) {
        return kind == Kind.NAME && text.equals(name);
    }
}
