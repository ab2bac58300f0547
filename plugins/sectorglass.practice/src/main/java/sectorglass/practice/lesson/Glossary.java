package sectorglass.practice.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** All terms of the lessons. Finds them in texts, in any spelling that the glossary gives. Safe for several threads. */
public final class Glossary {
    private final Map<String, GlossaryTerm> terms = new LinkedHashMap<>();
    private final Map<String, Finder> finders = new java.util.concurrent.ConcurrentHashMap<>();

    private record Finder(Pattern pattern, Map<String, GlossaryTerm> bySpelling) { }

    /** A glossary of these terms; of two with one id the first one counts. */
    public Glossary(List<GlossaryTerm> all) {
        all.forEach(term -> terms.putIfAbsent(term.id(), term));
    }

    /** All terms in the order of the glossary. */
    public List<GlossaryTerm> terms() {
        return List.copyOf(terms.values());
    }

    /** All terms in the order of the alphabet of a language. */
    public List<GlossaryTerm> sorted(Locale locale) {
        java.text.Collator order = java.text.Collator.getInstance(locale);
        return terms.values().stream().sorted(Comparator.comparing(term -> term.name().in(locale), order)).toList();
    }

    /** The term that a spelling stands for. */
    public Optional<GlossaryTerm> find(String spelling, Locale locale) {
        return Optional.ofNullable(finder(locale).bySpelling().get(spelling.toLowerCase(locale)));
    }

    /** A marked text in pieces, terms told apart. Expressions must have been filled in before ({@link LessonRun#text(Words)}). */
    public List<TextPart> parts(String marked, Locale locale) {
        List<TextPart> parts = new ArrayList<>();
        for (TextPart part : TextPart.of(marked)) {
            switch (part.kind()) {
                case DEFINED -> parts.add(new TextPart(TextPart.Kind.DEFINED, part.text(), find(part.text(), locale).orElse(null)));
                case PLAIN -> split(part.text(), finder(locale), locale, parts);
                default -> parts.add(part);
            }
        }
        return parts;
    }

    private static void split(String text, Finder finder, Locale locale, List<TextPart> parts) {
        if (finder.bySpelling().isEmpty()) {
            parts.add(new TextPart(TextPart.Kind.PLAIN, text, null));
            return;
        }
        int at = 0;
        Matcher matcher = finder.pattern().matcher(text);
        while (matcher.find()) {
            if (matcher.start() > at) {
                parts.add(new TextPart(TextPart.Kind.PLAIN, text.substring(at, matcher.start()), null));
            }
            parts.add(new TextPart(TextPart.Kind.TERM, matcher.group(), finder.bySpelling().get(matcher.group().toLowerCase(locale))));
            at = matcher.end();
        }
        if (at < text.length()) {
            parts.add(new TextPart(TextPart.Kind.PLAIN, text.substring(at), null));
        }
    }

    private Finder finder(Locale locale) {
        return finders.computeIfAbsent(locale.getLanguage(), language -> {
            Map<String, GlossaryTerm> bySpelling = new HashMap<>();
            for (GlossaryTerm term : terms.values()) {
                term.spellings(locale).forEach(spelling -> bySpelling.putIfAbsent(spelling.toLowerCase(locale), term));
            }
            List<String> longestFirst = bySpelling.keySet().stream().sorted(Comparator.comparingInt((String s) -> -s.length()).thenComparing(s -> s))
                    .map(Pattern::quote).toList();
            return new Finder(Pattern.compile("(?<![\\p{L}\\p{N}])(" + String.join("|", longestFirst) + ")(?![\\p{L}\\p{N}])",
                    Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE), bySpelling);
        });
    }
}
