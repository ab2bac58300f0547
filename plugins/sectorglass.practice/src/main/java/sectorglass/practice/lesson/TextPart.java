package sectorglass.practice.lesson;

import java.util.ArrayList;
import java.util.List;

/**
 * A piece of a lesson's text.
 *
 * @param kind how it is shown
 * @param text the words without marks
 * @param term the glossary's term that the words stand for, or null
 */
public record TextPart(Kind kind, String text, GlossaryTerm term) {

    /** How a piece is shown. */
    public enum Kind {
        /** Plain words. */
        PLAIN,
        /** A term at the place where it is defined: shown with stress. */
        DEFINED,
        /** A term that was defined before: may be explained on request. */
        TERM,
        /** Bytes or the name of a field: shown in the fixed-width font. */
        CODE
    }

    /** Splits a text at its marks; terms in plain words are not looked for ({@link Glossary#parts} does). */
    public static List<TextPart> of(String marked) {
        List<TextPart> parts = new ArrayList<>();
        int at = 0;
        while (at < marked.length()) {
            int open = next(marked, at);
            int close = open < 0 ? -1 : marked.indexOf(marked.charAt(open), open + 1);
            if (close < 0) {
                parts.add(new TextPart(Kind.PLAIN, marked.substring(at), null));
                return parts;
            }
            if (open > at) {
                parts.add(new TextPart(Kind.PLAIN, marked.substring(at, open), null));
            }
            parts.add(new TextPart(marked.charAt(open) == '*' ? Kind.DEFINED : Kind.CODE, marked.substring(open + 1, close), null));
            at = close + 1;
        }
        return parts;
    }

    private static int next(String text, int from) {
        int star = text.indexOf('*', from);
        int tick = text.indexOf('`', from);
        return star < 0 ? tick : tick < 0 ? star : Math.min(star, tick);
    }

    /** A text without its marks. */
    public static String plain(String marked) {
        StringBuilder text = new StringBuilder();
        of(marked).forEach(part -> text.append(part.text()));
        return text.toString();
    }
}
