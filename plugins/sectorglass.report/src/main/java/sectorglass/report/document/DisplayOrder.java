package sectorglass.report.document;

import java.text.Bidi;
import java.text.Normalizer;
import java.util.HashMap;
import java.util.Map;

/**
 * Puts a line of text into the order and shapes in which it is printed: right-to-left runs turned around (Unicode Standard Annex 9, as the platform
 * does it), Arabic letters joined (The Unicode Standard, section 9.2). For writers that set one glyph after the other from the left.
 */
final class DisplayOrder {
    private static final int FORMS_FIRST = 0xFB50;
    private static final int FORMS_LAST = 0xFEFC;
    /** Letter to its isolated, final, initial, medial form; 0 where it has none. Found from the names and decompositions of the forms. */
    private static final Map<Integer, int[]> FORMS = new HashMap<>();
    private static final String[] WORDS = {" ISOLATED FORM", " FINAL FORM", " INITIAL FORM", " MEDIAL FORM"};

    static {
        for (int form = FORMS_FIRST; form <= FORMS_LAST; form++) {
            String name = Character.getName(form);
            String letter = Normalizer.normalize(Character.toString(form), Normalizer.Form.NFKC);
            if (name == null || !name.startsWith("ARABIC LETTER") || letter.codePointCount(0, letter.length()) != 1) {
                continue;
            }
            for (int i = 0; i < WORDS.length; i++) {
                if (name.endsWith(WORDS[i])) {
                    FORMS.computeIfAbsent(letter.codePointAt(0), l -> new int[4])[i] = form;
                }
            }
        }
    }

    private DisplayOrder() {
    }

    /** The line as it is set from left to right. */
    static String of(String line) {
        if (!Bidi.requiresBidi(line.toCharArray(), 0, line.length())) {
            return line;
        }
        String joined = join(line);
        Bidi bidi = new Bidi(joined, Bidi.DIRECTION_DEFAULT_LEFT_TO_RIGHT);
        int count = bidi.getRunCount();
        byte[] levels = new byte[count];
        String[] runs = new String[count];
        for (int i = 0; i < count; i++) {
            levels[i] = (byte) bidi.getRunLevel(i);
            String run = joined.substring(bidi.getRunStart(i), bidi.getRunLimit(i));
            runs[i] = levels[i] % 2 == 0 ? run : turned(run);
        }
        Bidi.reorderVisually(levels, 0, runs, 0, count);
        return String.join("", runs);
    }

    private static String turned(String run) {
        StringBuilder turned = new StringBuilder();
        int end = run.length();
        while (end > 0) {
            int start = run.offsetByCodePoints(end, -1);
            while (start > 0 && mark(run.codePointAt(start))) {
                start = run.offsetByCodePoints(start, -1);
            }
            for (int i = start; i < end;) {
                int letter = run.codePointAt(i);
                turned.appendCodePoint(Character.isMirrored(letter) ? mirror(letter) : letter);
                i += Character.charCount(letter);
            }
            end = start;
        }
        return turned.toString();
    }

    private static boolean mark(int letter) {
        return Character.getType(letter) == Character.NON_SPACING_MARK;
    }

    private static int mirror(int letter) {
        int at = "()[]{}<>\u00AB\u00BB".indexOf(letter);
        return at < 0 ? letter : "()[]{}<>\u00AB\u00BB".charAt(at ^ 1);
    }

    private static String join(String line) {
        int[] letters = line.codePoints().toArray();
        StringBuilder joined = new StringBuilder();
        for (int i = 0; i < letters.length; i++) {
            int[] forms = FORMS.get(letters[i]);
            if (forms == null) {
                joined.appendCodePoint(letters[i]);
                continue;
            }
            boolean before = joins(neighbour(letters, i, -1), 2);
            boolean after = joins(neighbour(letters, i, 1), 1) && (forms[2] != 0 || forms[3] != 0);
            boolean takes = before && forms[1] != 0;
            int form = takes && after && forms[3] != 0 ? forms[3] : takes ? forms[1] : after && forms[2] != 0 ? forms[2] : forms[0];
            joined.appendCodePoint(form == 0 ? letters[i] : form);
        }
        return joined.toString();
    }

    private static int neighbour(int[] letters, int from, int step) {
        int at = from + step;
        while (at >= 0 && at < letters.length && mark(letters[at])) {
            at += step;
        }
        return at < 0 || at >= letters.length ? 0 : letters[at];
    }

    /** Whether a neighbour can join on this side: it has the initial (2) or final (1) form, or is the joiner itself. */
    private static boolean joins(int letter, int form) {
        int[] forms = FORMS.get(letter);
        return letter == 0x0640 || letter == 0x200D || forms != null && forms[form] != 0;
    }
}
