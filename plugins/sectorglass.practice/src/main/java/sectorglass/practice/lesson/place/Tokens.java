package sectorglass.practice.lesson.place;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The words of an expression, read one after the other. */
final class Tokens {
    /** Longer ones nobody writes by hand. */
    private static final int MOST = 1000;
    private static final Pattern TOKEN = Pattern.compile("\\s*(?:(?<text>\"[^\"]*\")|(?<number>0x[0-9A-Fa-f]+|[0-9]+)(?![A-Za-z0-9_])"
            + "|(?<word>[A-Za-z_$][A-Za-z0-9_]*(?:\\[[0-9]+\\])?(?:\\.[A-Za-z_][A-Za-z0-9_]*(?:\\[[0-9]+\\])?)*)|(?<sign>\\.\\.|[-+*/%(),#]))");

    private record Token(String text, int at) { }

    private final String all;
    private final List<Token> tokens = new ArrayList<>();
    private int next;

    Tokens(String expression) {
        all = expression;
        if (all.length() > MOST) {
            throw new IllegalArgumentException("an expression has at most " + MOST + " characters");
        }
        Matcher matcher = TOKEN.matcher(all);
        int at = 0;
        while (!all.substring(at).isBlank()) {
            if (!matcher.region(at, all.length()).lookingAt()) {
                throw new IllegalArgumentException("\"" + all.substring(at).strip() + "\" is not understood");
            }
            tokens.add(new Token(matcher.group().strip(), at));
            at = matcher.end();
        }
    }

    /** The next word without taking it; empty at the end. */
    String peek() {
        return next < tokens.size() ? tokens.get(next).text() : "";
    }

    /** The word after the next one. */
    String second() {
        return next + 1 < tokens.size() ? tokens.get(next + 1).text() : "";
    }

    boolean done() {
        return next >= tokens.size();
    }

    /** Takes the next word. */
    String take(String wanted) {
        if (done()) {
            throw new IllegalArgumentException("after \"" + all.strip() + "\" " + wanted + " is missing");
        }
        return tokens.get(next++).text();
    }

    /** Takes the next word if it is this one. */
    boolean takeIf(String word) {
        if (peek().equals(word)) {
            next++;
            return true;
        }
        return false;
    }

    /** Takes this word. */
    void expect(String word) {
        if (!takeIf(word)) {
            throw new IllegalArgumentException("\"" + word + "\" is missing" + (done() ? " at the end" : " before \"" + rest() + "\""));
        }
    }

    /** A sentence's end: what was not understood. */
    String rest() {
        return done() ? "" : all.substring(tokens.get(next).at()).strip();
    }

    static boolean isNumber(String token) {
        return !token.isEmpty() && Character.isDigit(token.charAt(0));
    }

    static boolean isText(String token) {
        return token.startsWith("\"");
    }

    static boolean isWord(String token) {
        return !token.isEmpty() && (Character.isLetter(token.charAt(0)) || token.charAt(0) == '_');
    }

    /** The number that a token is. */
    static long number(String token) {
        try {
            return token.startsWith("0x") ? Long.parseUnsignedLong(token.substring(2), 16) : Long.parseLong(token);
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException("\"" + token + "\" is too large", e);
        }
    }
}
