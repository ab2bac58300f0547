package sectorglass.verify;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * The words within stored and computed values in another language. Checkers write values in English, of numbers and few phrases
 * ("at most 12 sectors"); the file {@code values_LANGUAGE.txt} holds the phrases, longer ones count first. What stands in quotation marks is
 * the disk's own text and stays.
 */
final class ValueWords {
    private static final Map<String, ValueWords> KNOWN = new ConcurrentHashMap<>();
    private static final Pattern QUOTED = Pattern.compile("\"[^\"]*\"|\u201C[^\u201D]*\u201D|\u201E[^\u201C]*\u201C");

    private final Map<String, String> words;
    private final Pattern phrases;

    private ValueWords(Map<String, String> words) {
        this.words = words;
        this.phrases = words.isEmpty() ? null : Pattern.compile(words.keySet().stream().sorted(Comparator.comparing(String::length).reversed())
                .map(Pattern::quote).collect(Collectors.joining("|", "(?<![\\p{L}\\p{N}_$.-])(?:", ")(?![\\p{L}\\p{N}_-]|\\.\\p{L})")));
    }

    /** The words of a language; those of English change nothing. */
    static ValueWords of(Locale locale) {
        return KNOWN.computeIfAbsent(locale.getLanguage(), ValueWords::load);
    }

    private static ValueWords load(String language) {
        Map<String, String> words = new HashMap<>();
        try (InputStream in = ValueWords.class.getResourceAsStream("values_" + language + ".txt")) {
            if (in != null) {
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
                for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                    int equals = line.indexOf(" = ");
                    if (!line.startsWith("#") && equals > 0) {
                        words.put(line.substring(0, equals), line.substring(equals + 3));
                    }
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return new ValueWords(words);
    }

    /** A value with its phrases in this language. */
    String say(String value) {
        if (phrases == null || value == null) {
            return value;
        }
        StringBuilder said = new StringBuilder();
        Matcher quoted = QUOTED.matcher(value);
        int at = 0;
        while (quoted.find()) {
            said.append(words(value.substring(at, quoted.start()))).append(quoted.group());
            at = quoted.end();
        }
        return said.append(words(value.substring(at))).toString();
    }

    private String words(String part) {
        return phrases.matcher(part).replaceAll(found -> Matcher.quoteReplacement(words.get(found.group())));
    }
}
