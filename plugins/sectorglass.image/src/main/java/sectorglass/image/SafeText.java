package sectorglass.image;

/**
 * Text from a disk, made safe to show: control and format characters (terminal escapes, direction overrides, line breaks), unpaired
 * surrogates and characters not assigned become visible as {@code \\u{HEX}}. Nothing else is changed.
 */
public final class SafeText {

    private SafeText() {
    }

    /** The text with everything invisible or active spelled out; null stays null. */
    public static String of(String text) {
        if (text == null) {
            return null;
        }
        StringBuilder safe = null;
        for (int i = 0; i < text.length();) {
            int c = text.codePointAt(i);
            int n = Character.charCount(c);
            if (!visible(c)) {
                if (safe == null) {
                    safe = new StringBuilder(text.length() + 16).append(text, 0, i);
                }
                safe.append("\\u{").append(Integer.toHexString(c).toUpperCase(java.util.Locale.ROOT)).append('}');
            } else if (safe != null) {
                safe.appendCodePoint(c);
            }
            i += n;
        }
        return safe == null ? text : safe.toString();
    }

    private static boolean visible(int c) {
        return switch (Character.getType(c)) {
            case Character.CONTROL, Character.FORMAT, Character.SURROGATE, Character.UNASSIGNED, Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR -> false;
            default -> true;
        };
    }
}
