package sectorglass.practice.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * No term is used before it was defined, and nothing else than terms and everyday words is used: a word that is neither in the glossary nor
 * in the list of everyday words fails the test, so that somebody has to decide what it is.
 */
class VocabularyTest {
    private static final Lessons LESSONS = MadeDisks.LESSONS;
    private static final Pattern WORD = Pattern.compile("\\p{L}[\\p{L}\\p{M}]*(?:[-’'][\\p{L}]+)*");

    /** A text of a step and where it stands. */
    private record Text(String where, String text) { }

    private static List<Text> texts(Lesson lesson, Step step, Locale locale) {
        List<Words> words = new ArrayList<>();
        words.add(step.text());
        words.add(step.ask());
        words.add(step.right());
        words.add(step.otherwise());
        step.wrong().forEach(wrong -> words.add(wrong.why()));
        List<Text> texts = new ArrayList<>();
        for (Words one : words) {
            if (one != null) {
                // values of the disk are no words of ours
                texts.add(new Text(lesson.file() + ", step " + step.id(), one.in(locale).replaceAll("\\{[^}]*\\}", "0")));
            }
        }
        return texts;
    }

    @ParameterizedTest
    @ValueSource(strings = {"en", "de"})
    void everyTermIsDefinedBeforeItIsUsed(String language) {
        Locale locale = Locale.forLanguageTag(language);
        Set<String> defined = new LinkedHashSet<>();
        List<String> early = new ArrayList<>();
        for (Lesson lesson : LESSONS.all()) {
            for (Step step : lesson.steps()) {
                List<Text> texts = texts(lesson, step, locale);
                for (TextPart part : LESSONS.glossary().parts(texts.get(0).text(), locale)) {
                    if (part.kind() == TextPart.Kind.DEFINED) {
                        assertNotNull(part.term(), texts.get(0).where() + " defines \"" + part.text() + "\", which is not in the glossary");
                        assertTrue(defined.add(part.term().id()), part.term().id() + " is defined twice, again in " + texts.get(0).where());
                    }
                }
                for (Text text : texts) {
                    for (TextPart part : LESSONS.glossary().parts(text.text(), locale)) {
                        if (part.kind() == TextPart.Kind.TERM && !defined.contains(part.term().id())) {
                            early.add(text.where() + " uses \"" + part.text() + "\" before it is defined");
                        }
                    }
                }
            }
        }
        assertEquals(List.of(), early);
        assertEquals(LESSONS.glossary().terms().stream().map(GlossaryTerm::id).toList(), List.copyOf(defined),
                "the glossary holds exactly the terms that lessons define, in their order");
    }

    @ParameterizedTest
    @ValueSource(strings = {"en", "de"})
    void everyOtherWordIsAnEverydayWord(String language) throws IOException {
        Locale locale = Locale.forLanguageTag(language);
        Set<String> everyday = everyday(language);
        Set<String> unknown = new TreeSet<>();
        Set<String> used = new HashSet<>();
        for (Lesson lesson : LESSONS.all()) {
            for (Step step : lesson.steps()) {
                for (Text text : texts(lesson, step, locale)) {
                    collect(text.text(), locale, everyday, used, unknown);
                }
            }
        }
        for (GlossaryTerm term : LESSONS.glossary().terms()) {
            collect(term.text().in(locale), locale, everyday, used, unknown);
        }
        assertEquals("", String.join("\n", unknown), "words that are neither terms nor everyday words");
        everyday.removeAll(used);
        assertEquals("", String.join("\n", new TreeSet<>(everyday)), "everyday words that no lesson uses any more");
    }

    private static void collect(String text, Locale locale, Set<String> everyday, Set<String> used, Set<String> unknown) {
        for (TextPart part : LESSONS.glossary().parts(text, locale)) {
            if (part.kind() == TextPart.Kind.PLAIN) {
                Matcher words = WORD.matcher(part.text());
                while (words.find()) {
                    String word = words.group().toLowerCase(locale);
                    used.add(word);
                    if (!everyday.contains(word)) {
                        unknown.add(word);
                    }
                }
            }
        }
    }

    private static Set<String> everyday(String language) throws IOException {
        try (InputStream in = VocabularyTest.class.getResourceAsStream("everyday_" + language + ".txt")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().filter(line -> !line.startsWith("#"))
                    .flatMap(line -> List.of(line.strip().split(" +")).stream()).filter(word -> !word.isEmpty()).collect(Collectors.toCollection(HashSet::new));
        }
    }

    @Test
    void bothLanguagesSayTheSameThings() {
        for (Lesson lesson : LESSONS.all()) {
            assertEquals(Set.of("en", "de"), lesson.title().byLanguage().keySet(), lesson.file());
            for (Step step : lesson.steps()) {
                String where = lesson.file() + ", step " + step.id();
                List<Words> all = new ArrayList<>(List.of(step.text()));
                step.wrong().forEach(wrong -> all.add(wrong.why()));
                for (Words words : new Words[] {step.ask(), step.right(), step.otherwise()}) {
                    if (words != null) {
                        all.add(words);
                    }
                }
                for (Words words : all) {
                    assertEquals(Set.of("en", "de"), words.byLanguage().keySet(), where);
                    assertEquals(marks(words, Locale.ENGLISH), marks(words, Locale.GERMAN), where + ": values and bytes: " + words);
                }
            }
        }
    }

    /** Values and bytes that a text shows, in any order. */
    private static List<String> marks(Words words, Locale locale) {
        Matcher marks = Pattern.compile("`[^`]*`|\\{[^}]*\\}").matcher(words.in(locale));
        return marks.results().map(result -> result.group()).sorted().toList();
    }

    @Test
    void stepsAreShortAndAskOften() {
        assertTrue(LESSONS.all().size() >= 12, "about twelve lessons");
        for (Lesson lesson : LESSONS.all()) {
            assertTrue(lesson.steps().size() >= 6 && lesson.steps().size() <= 12, lesson.file() + " has " + lesson.steps().size() + " steps");
            List<Step> asking = lesson.steps().stream().filter(Step::asks).toList();
            assertTrue(asking.size() >= 3, lesson.file() + " asks " + asking.size() + " times");
            assertTrue(asking.stream().map(step -> step.task().word()).distinct().count() >= 2, lesson.file() + " asks in one way only");
            assertTrue(!lesson.sources().isEmpty(), lesson.file() + " names no source");
            for (Step step : lesson.steps()) {
                for (Locale locale : List.of(Locale.ENGLISH, Locale.GERMAN)) {
                    int words = step.text().in(locale).replaceAll("\\{[^}]*\\}", "0").split("\\s+").length;
                    assertTrue(words <= 55, lesson.file() + ", step " + step.id() + " " + locale + " has " + words + " words");
                }
            }
        }
    }
}
