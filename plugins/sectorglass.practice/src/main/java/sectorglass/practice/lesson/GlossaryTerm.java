package sectorglass.practice.lesson;

import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * A term of the glossary.
 *
 * @param id lower case with hyphens
 * @param name the term in each language
 * @param forms further forms by language: plurals, cases, joined words
 * @param text what it means, in plain words
 */
public record GlossaryTerm(String id, Words name, Map<String, List<String>> forms, Words text) {

    /** The term and its further forms in a language. */
    public List<String> spellings(Locale locale) {
        List<String> all = new java.util.ArrayList<>(List.of(name.in(locale)));
        all.addAll(forms.getOrDefault(locale.getLanguage(), List.of()));
        return all;
    }
}
