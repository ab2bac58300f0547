package sectorglass.practice.lesson;

import java.util.Locale;
import java.util.Map;

/**
 * A text in several languages, with marks: {@code *term*} where a term is defined, {@code `55 AA`} around bytes and names of fields, and
 * {@code {expression}} where a value of the disk is put in (see {@link LessonRun#text(Words)}).
 *
 * @param byLanguage the texts by two-letter language code; never empty, English is always there
 */
public record Words(Map<String, String> byLanguage) {

    /** @throws IllegalArgumentException where English is missing */
    public Words {
        byLanguage = Map.copyOf(byLanguage);
        if (!byLanguage.containsKey("en")) {
            throw new IllegalArgumentException("no English text");
        }
    }

    /** A text in English alone. */
    public static Words english(String text) {
        return new Words(Map.of("en", text));
    }

    /** The text in the language of the locale, else in English; marks and expressions as they stand. */
    public String in(Locale locale) {
        return byLanguage.getOrDefault(locale.getLanguage(), byLanguage.get("en"));
    }
}
