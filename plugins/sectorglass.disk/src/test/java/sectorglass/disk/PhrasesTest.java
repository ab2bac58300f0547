package sectorglass.disk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;
import java.util.ResourceBundle;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.junit.jupiter.api.Test;

class PhrasesTest {
    private static final Phrases GERMAN = Phrases.in(Locale.GERMANY);
    private static final Pattern PLACE = Pattern.compile("\\{\\d}");
    /** A call whose argument is a text of literals and other things joined by plus. */
    private static final Pattern SAID = Pattern.compile("(?:remarks\\.add|\\.remark|Role\\.of)\\(\\s*(?:Role\\.Kind\\.\\w+,\\s*)?((?:\"(?:[^\"\\\\]|\\\\.)*\""
            + "|\\s*\\+\\s*|[\\w.]+(?:\\([^()\"]*\\))?)+)\\)");

    @Test
    void germanIsCompleteAndHasTheSamePlaces() {
        ResourceBundle english = Phrases.bundle(Locale.ROOT);
        ResourceBundle german = Phrases.bundle(Locale.GERMAN);
        assertEquals(new TreeSet<>(english.keySet()), new TreeSet<>(german.keySet()));
        for (String key : english.keySet()) {
            assertEquals(places(english.getString(key)), places(german.getString(key)), key);
        }
    }

    private static TreeSet<String> places(String text) {
        return PLACE.matcher(text).results().map(r -> r.group()).collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    void placesAreFilledAndTheUnknownStays() {
        assertEquals("nicht sauber geschlossen", GERMAN.of("not closed cleanly"));
        assertEquals("aus dem Sicherungs-Superblock bei Byte 1024 gelesen", GERMAN.of("read from the backup superblock at byte 1024"));
        assertEquals("Kopie 1 hat a {0}, Kopie 2 hat b", GERMAN.of("copy 1 has a {0}, copy 2 has b"));
        assertEquals("Volume 3: nichts bisher Gelesenes heißt „x“.", GERMAN.of("Volume 3: nothing read so far is called \"x\"."));
        assertEquals("Volume 2: Ordner: Das bisher Gelesene nennt nicht alle Sektoren davon; lesen Sie die misslungenen Stellen der Stufen davor.", GERMAN.of(
                "Volume 2: folders: what was read so far does not name all of its sectors; read the failed places of the stages before it."));
        assertEquals("something else", GERMAN.of("something else"));
        assertNull(GERMAN.of(null));
        assertEquals("not closed cleanly", Phrases.in(Locale.ENGLISH).of("not closed cleanly"));
    }

    @Test
    void hostileTextsTakeNoTime() {
        String long1 = "copy 1 has " + ", copy 1 has ".repeat(100);
        assertTimeout(Duration.ofSeconds(2), () -> GERMAN.of(long1));
        assertTimeout(Duration.ofSeconds(2), () -> GERMAN.of("Volume ".repeat(280)));
    }

    /** The stages of a plan are given their reasons in one file. */
    @Test
    void reasonsOfStagesAreKnown() throws IOException {
        TreeSet<String> missing = new TreeSet<>();
        Matcher literal = Pattern.compile("\"([a-z][^\"]{20,})\"").matcher(
                Files.readString(Path.of("../sectorglass.recovery/src/main/java/sectorglass/recovery/ReadPlanner.java")));
        int seen = 0;
        while (literal.find()) {
            String text = literal.group(1);
            seen++;
            if (!GERMAN.knows(text)) {
                missing.add(text);
            }
        }
        assertTrue(seen > 5, "seen: " + seen);
        assertEquals(new TreeSet<>(), missing);
    }

    /** What engines say in a plain call is looked for in their sources; what they compute from tables is left to the tests of those. */
    @Test
    void whatEnginesSayIsKnown() throws IOException {
        TreeSet<String> missing = new TreeSet<>();
        int seen = 0;
        try (Stream<Path> files = Files.walk(Path.of(".."))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".java") && f.toString().contains("/src/main/")
                    && !f.toString().contains("sectorglass.cli") && !f.toString().contains("workbench")).toList()) {
                Matcher said = SAID.matcher(Files.readString(file));
                while (said.find()) {
                    String text = said.group(1).strip();
                    if (text.startsWith("\"") || text.contains("+ \"")) {
                        seen++;
                        String sample = sample(text);
                        if (!GERMAN.knows(sample)) {
                            missing.add(file.getFileName() + ": " + sample);
                        }
                    }
                }
            }
        }
        assertTrue(seen > 40, "seen: " + seen);
        assertEquals(new TreeSet<>(), missing);
    }

    /** A text as the code would make it, with 7 for everything that is no literal. */
    private static String sample(String code) {
        StringBuilder text = new StringBuilder();
        Matcher parts = Pattern.compile("\"((?:[^\"\\\\]|\\\\.)*)\"|[^\\s+\"][^+\"]*").matcher(code);
        while (parts.find()) {
            text.append(parts.group(1) == null ? "7" : parts.group(1).replace("\\\"", "\"").replace("\\\\", "\\"));
        }
        return text.toString();
    }
}
