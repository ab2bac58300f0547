package sectorglass.workbench.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Properties;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TextsTest {
    private static final Pattern PLACE = Pattern.compile("\\{\\d+}");

    private static Properties load(String file) throws IOException {
        Properties properties = new Properties();
        try (InputStream in = TextsTest.class.getResourceAsStream(file)) {
            properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
        }
        return properties;
    }

    @ParameterizedTest
    @ValueSource(strings = {"/sectorglass/workbench/texts", "/sectorglass/workbench/habits", "/sectorglass/workbench/teaching", "/plugin"})
    void germanIsComplete(String file) throws IOException {
        Properties english = load(file + ".properties");
        Properties german = load(file + "_de.properties");
        assertEquals(new TreeSet<>(english.keySet()), new TreeSet<>(german.keySet()));
        for (Object key : english.keySet()) {
            assertEquals(places(english.get(key)), places(german.get(key)), "places of " + key);
        }
    }

    private static TreeSet<String> places(Object text) {
        return PLACE.matcher(text.toString()).results().map(r -> r.group()).collect(Collectors.toCollection(TreeSet::new));
    }

    @ParameterizedTest
    @ValueSource(strings = {"/sectorglass/workbench/texts.properties", "/sectorglass/workbench/texts_de.properties",
        "/sectorglass/workbench/habits.properties", "/sectorglass/workbench/habits_de.properties",
        "/sectorglass/workbench/teaching.properties", "/sectorglass/workbench/teaching_de.properties"})
    void noApostropheSwallowsAPlace(String file) throws IOException {
        load(file).forEach((key, text) -> assertFalse(text.toString().contains("{") && text.toString().replace("''", "").contains("'"),
                key + " has a single apostrophe in a pattern"));
    }

    @Test
    void everyKeyThatTheCodeNamesExists() throws IOException {
        Properties english = load("/sectorglass/workbench/texts.properties");
        Properties habits = load("/sectorglass/workbench/habits.properties");
        habits.keySet().forEach(key -> assertFalse(english.containsKey(key), key + " stands in two files"));
        english.putAll(habits);
        Properties teaching = load("/sectorglass/workbench/teaching.properties");
        teaching.keySet().forEach(key -> assertFalse(english.containsKey(key), key + " stands in two files"));
        english.putAll(teaching);
        Pattern use = Pattern.compile("Texts\\.of\\(\"([a-z0-9_.-]+)\"[,)]");
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
        assertTrue(seen > 50, "keys seen: " + seen);
        assertEquals(new TreeSet<>(), missing);
    }

    @Test
    void placesAreFilled() {
        assertEquals("LBA 7, byte 5 (0x005)", Texts.in(Locale.ENGLISH, "caret.lba", "7", "5", "005"));
        assertEquals("LBA 7, Byte 5 (0x005)", Texts.in(Locale.GERMAN, "caret.lba", "7", "5", "005"));
    }
}
