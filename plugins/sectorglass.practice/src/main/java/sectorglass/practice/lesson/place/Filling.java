package sectorglass.practice.lesson.place;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A text with values of the disk put in: {@code {number}} with digits grouped, {@code {hex number}}, {@code {plain number}},
 * {@code {text(…)}}, {@code {bytes(…)}},
 * {@code {meaning(…)}}, {@code {letters(…)}}.
 */
public final class Filling {
    /** Thin space between groups of three digits, as in the window. */
    private static final char THIN = '\u2009';

    private final List<TextExpression> pieces = new ArrayList<>();

    private Filling() {
    }

    /** @throws IllegalArgumentException where a brace has no partner, or an expression is none */
    public static Filling of(String text) {
        Filling filling = new Filling();
        int at = 0;
        while (at < text.length()) {
            int open = text.indexOf('{', at);
            if (open < 0) {
                filling.literal(text.substring(at));
                break;
            }
            int close = text.indexOf('}', open);
            if (close < 0) {
                throw new IllegalArgumentException("the brace { has no partner");
            }
            filling.literal(text.substring(at, open));
            filling.pieces.add(piece(text.substring(open + 1, close).strip()));
            at = close + 1;
        }
        return filling;
    }

    private void literal(String text) {
        pieces.add(ground -> text);
    }

    private static TextExpression piece(String text) {
        if (text.matches("(?s)(text|bytes|meaning|letters)\\s*\\(.*")) {
            return Expressions.text(text);
        }
        boolean hex = text.startsWith("hex ");
        boolean plain = text.startsWith("plain ");
        NumberExpression number = Expressions.number(hex ? text.substring(4) : plain ? text.substring(6) : text);
        return ground -> hex ? hex(number.in(ground)) : plain ? Long.toUnsignedString(number.in(ground)) : grouped(number.in(ground));
    }

    /** The text of a disk. */
    public String in(Ground ground) {
        StringBuilder text = new StringBuilder();
        pieces.forEach(piece -> text.append(piece.in(ground)));
        return text.toString();
    }

    /** A number in hex, with 0x. */
    public static String hex(long number) {
        return "0x" + Long.toHexString(number).toUpperCase(Locale.ROOT);
    }

    /** A number with its digits in groups of three. */
    public static String grouped(long number) {
        String digits = Long.toUnsignedString(number);
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < digits.length(); i++) {
            if (i > 0 && (digits.length() - i) % 3 == 0) {
                text.append(THIN);
            }
            text.append(digits.charAt(i));
        }
        return text.toString();
    }
}
