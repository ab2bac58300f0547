package sectorglass.workbench.look;

import java.util.Locale;

/**
 * The texts of the window: {@code texts.properties}, {@code habits.properties} for what serves in every part, {@code teaching.properties} for
 * what serves a class.
 */
public final class Texts {
    private static final TextBook BOOK = new TextBook(Texts.class, "sectorglass.workbench.texts", "sectorglass.workbench.habits",
            "sectorglass.workbench.teaching");

    private Texts() {
    }

    /** A text in the language of the platform, its places filled; numbers are put in as they are given. */
    public static String of(String key, Object... values) {
        return in(Locale.getDefault(), key, values);
    }

    static String in(Locale locale, String key, Object... values) {
        return BOOK.in(locale, key, values);
    }
}
