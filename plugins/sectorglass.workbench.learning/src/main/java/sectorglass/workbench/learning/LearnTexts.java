package sectorglass.workbench.learning;

import java.util.Locale;

import sectorglass.workbench.look.TextBook;

/** The texts of this bundle. */
public final class LearnTexts {
    private static final TextBook BOOK = new TextBook(LearnTexts.class, "sectorglass.workbench.learning.texts");

    private LearnTexts() {
    }

    /** A text in the language of the platform, its places filled; numbers are put in as they are given. */
    public static String of(String key, Object... values) {
        return BOOK.in(Locale.getDefault(), key, values);
    }
}
