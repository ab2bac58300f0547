package sectorglass.decode.internal.expr;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;

import sectorglass.decode.internal.expr.Token.Kind;

/** Cuts an expression into words. */
final class Lexer {
    private static final String[] OPERATORS = {"<<", ">>", "==", "!=", "<=", ">=", "::", "+", "-", "*", "/", "%", "<", ">", "&", "|", "^",
        "~", "?", ":", ".", ",", "(", ")", "[", "]"};
    private static final BigInteger LIMIT = BigInteger.ONE.shiftLeft(64);

    private final String text;
    private int at;

    private Lexer(String text) {
        this.text = text;
    }

    /** All words, the last one {@link Kind#END}. */
    static List<Token> words(String text) throws SyntaxException {
        Lexer lexer = new Lexer(text);
        List<Token> words = new ArrayList<>();
        Token word;
        do {
            word = lexer.next();
            words.add(word);
        } while (word.kind() != Kind.END);
        return words;
    }

    private Token next() throws SyntaxException {
        while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
            at++;
        }
        if (at >= text.length()) {
            return new Token(Kind.END, "the end", at, 0, 0);
        }
        char c = text.charAt(at);
        if (c == 'f' && at + 1 < text.length() && text.charAt(at + 1) == '"') {
            return formatString();
        }
        if (isLetter(c)) {
            int start = at;
            while (at < text.length() && (isLetter(text.charAt(at)) || isDigit(text.charAt(at)))) {
                at++;
            }
            return new Token(Kind.NAME, text.substring(start, at), start, 0, 0);
        }
        if (isDigit(c)) {
            return number();
        }
        if (c == '\'') {
            return singleQuoted();
        }
        if (c == '"') {
            int start = at++;
            String value = doubleQuoted(start);
            return new Token(Kind.STRING, value, start, 0, 0);
        }
        for (String operator : OPERATORS) {
            if (text.startsWith(operator, at)) {
                at += operator.length();
                return new Token(Kind.OPERATOR, operator, at - operator.length(), 0, 0);
            }
        }
        throw new SyntaxException(at, "the character '" + c + "' does not belong to the expression language");
    }

    private static boolean isLetter(char c) {
        return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_';
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    private Token number() throws SyntaxException {
        int start = at;
        int radix = 10;
        if (text.charAt(at) == '0' && at + 1 < text.length()) {
            radix = switch (text.charAt(at + 1)) {
                case 'x', 'X' -> 16;
                case 'b', 'B' -> 2;
                case 'o', 'O' -> 8;
                default -> 10;
            };
        }
        if (radix != 10) {
            at += 2;
        }
        String digits = digits(radix);
        if (digits.isEmpty()) {
            throw new SyntaxException(start, "a number has no digits");
        }
        if (radix == 10 && fractionFollows()) {
            return real(start);
        }
        if (radix == 10 && digits.length() > 1 && digits.charAt(0) == '0') {
            throw new SyntaxException(start, "a number does not begin with 0; an octal one begins with 0o");
        }
        BigInteger value = new BigInteger(digits, radix);
        if (value.compareTo(LIMIT) >= 0) {
            throw new SyntaxException(start, "the number " + text.substring(start, at) + " does not fit into 64 bits");
        }
        Kind kind = value.bitLength() > 63 ? Kind.BIG_INT : Kind.INT;
        return new Token(kind, text.substring(start, at), start, value.longValue(), value.doubleValue());
    }

    private boolean fractionFollows() {
        if (at >= text.length()) {
            return false;
        }
        char c = text.charAt(at);
        char then = at + 1 < text.length() ? text.charAt(at + 1) : ' ';
        return c == '.' && isDigit(then) || (c == 'e' || c == 'E') && (isDigit(then) || then == '+' || then == '-');
    }

    private Token real(int start) throws SyntaxException {
        if (text.charAt(at) == '.') {
            at++;
            digits(10);
        }
        if (at < text.length() && (text.charAt(at) == 'e' || text.charAt(at) == 'E')) {
            at++;
            if (at < text.length() && (text.charAt(at) == '+' || text.charAt(at) == '-')) {
                at++;
            }
            if (digits(10).isEmpty()) {
                throw new SyntaxException(start, "the exponent of a number has no digits");
            }
        }
        double value = Double.parseDouble(text.substring(start, at).replace("_", ""));
        return new Token(Kind.FLOAT, text.substring(start, at), start, 0, value);
    }

    private String digits(int radix) {
        StringBuilder digits = new StringBuilder();
        while (at < text.length()) {
            char c = text.charAt(at);
            if (c != '_' && (c > 'z' || Character.digit(c, radix) < 0)) {
                break;
            }
            if (c != '_') {
                digits.append(c);
            }
            at++;
        }
        return digits.toString();
    }

    private Token singleQuoted() throws SyntaxException {
        int start = at;
        int end = text.indexOf('\'', at + 1);
        if (end < 0) {
            throw new SyntaxException(start, "a string has no closing '");
        }
        at = end + 1;
        return new Token(Kind.STRING, text.substring(start + 1, end), start, 0, 0);
    }

    /** The text between the quotes with braces kept; the parser cuts it. Escapes are resolved there. */
    private Token formatString() throws SyntaxException {
        int start = at;
        at += 2;
        StringBuilder raw = new StringBuilder();
        int depth = 0;
        while (at < text.length() && (depth > 0 || text.charAt(at) != '"')) {
            char c = text.charAt(at);
            if (c == '\\' && depth == 0 && at + 1 < text.length()) {
                raw.append(c).append(text.charAt(at + 1));
                at += 2;
                continue;
            }
            depth += c == '{' ? 1 : c == '}' ? -1 : 0;
            raw.append(c);
            at++;
        }
        if (at >= text.length()) {
            throw new SyntaxException(start, "a string has no closing \"");
        }
        at++;
        return new Token(Kind.FORMAT_STRING, raw.toString(), start, 0, 0);
    }

    private String doubleQuoted(int start) throws SyntaxException {
        StringBuilder value = new StringBuilder();
        while (at < text.length()) {
            char c = text.charAt(at++);
            if (c == '"') {
                return value.toString();
            }
            if (c == '\\') {
                escape(value);
            } else {
                value.append(c);
            }
        }
        throw new SyntaxException(start, "a string has no closing \"");
    }

    /** Resolves the escapes of a piece of a format string. */
    static String unescape(String piece, int offset) throws SyntaxException {
        Lexer lexer = new Lexer(piece);
        StringBuilder value = new StringBuilder();
        while (lexer.at < piece.length()) {
            char c = piece.charAt(lexer.at++);
            if (c == '\\') {
                try {
                    lexer.escape(value);
                } catch (SyntaxException e) {
                    throw new SyntaxException(offset + e.at(), e.getMessage());
                }
            } else {
                value.append(c);
            }
        }
        return value.toString();
    }

    private void escape(StringBuilder value) throws SyntaxException {
        int start = at - 1;
        char c = at < text.length() ? text.charAt(at++) : ' ';
        switch (c) {
            case 'a' -> value.append('\u0007');
            case 'b' -> value.append('\b');
            case 'n' -> value.append('\n');
            case 'r' -> value.append('\r');
            case 't' -> value.append('\t');
            case 'v' -> value.append('\u000b');
            case 'f' -> value.append('\f');
            case 'e' -> value.append('\u001b');
            case '"', '\'', '\\' -> value.append(c);
            case 'u' -> {
                if (at + 4 > text.length() || !text.substring(at, at + 4).matches("[0-9a-fA-F]{4}")) {
                    throw new SyntaxException(start, "\\u needs four hexadecimal digits");
                }
                value.append((char) Integer.parseInt(text.substring(at, at + 4), 16));
                at += 4;
            }
            default -> {
                if (c < '0' || c > '7') {
                    throw new SyntaxException(start, "the escape \\" + c + " is not known");
                }
                int octal = c - '0';
                for (int i = 0; i < 2 && at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '7'; i++) {
                    octal = octal * 8 + text.charAt(at++) - '0';
                }
                value.append((char) octal);
            }
        }
    }
}
