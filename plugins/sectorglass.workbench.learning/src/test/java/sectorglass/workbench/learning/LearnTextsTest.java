package sectorglass.workbench.learning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Properties;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LearnTextsTest {
    private static final Pattern PLACE = Pattern.compile("\\{\\d+}");

    private static Properties load(String file) throws IOException {
        Properties properties = new Properties();
        try (InputStream in = LearnTextsTest.class.getResourceAsStream(file)) {
            properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
        }
        return properties;
    }

    @ParameterizedTest
    @ValueSource(strings = {"/sectorglass/workbench/learning/texts", "/plugin"})
    void germanHasTheSameTextsWithTheSamePlaces(String file) throws IOException {
        Properties english = load(file + ".properties");
        Properties german = load(file + "_de.properties");
        assertEquals(new TreeSet<>(english.keySet()), new TreeSet<>(german.keySet()));
        for (Object key : english.keySet()) {
            assertEquals(places(english.get(key)), places(german.get(key)), "places of " + key);
            for (Properties one : new Properties[] {english, german}) {
                assertFalse(one.get(key).toString().contains("{") && one.get(key).toString().contains("'"), key + " has an apostrophe in a pattern");
            }
        }
    }

    private static TreeSet<String> places(Object text) {
        return new TreeSet<>(PLACE.matcher(text.toString()).results().map(result -> result.group()).toList());
    }

    @Test
    void everyKeyThatTheCodeNamesExists() throws IOException {
        Properties english = load("/sectorglass/workbench/learning/texts.properties");
        Pattern use = Pattern.compile("(?:LearnTexts\\.of|named|button)\\((?:[^\"()]*(?:\\([^()]*\\))?[^\"()]*, )?\"([a-z0-9_.-]+[a-z0-9])\"[,)]");
        TreeSet<String> missing = new TreeSet<>();
        int seen = 0;
        try (Stream<Path> files = Files.walk(Path.of("src/main/java"))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
                Matcher matcher = use.matcher(Files.readString(file));
                while (matcher.find()) {
                    seen++;
                    if (!english.containsKey(matcher.group(1))) {
                        missing.add(matcher.group(1));
                    }
                }
            }
        }
        assertTrue(seen > 25, "keys seen: " + seen);
        assertEquals(new TreeSet<>(), missing);
    }
}
