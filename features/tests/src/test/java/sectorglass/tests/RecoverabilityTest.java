package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.make.Demo;
import sectorglass.testkit.Tool;

/** What came back of the partly read demo disk: docs/demo-disk.md says what was hidden. */
class RecoverabilityTest {
    @TempDir
    static Path folder;
    private static Demo.Written disk;
    private static JsonNode summary;

    @BeforeAll
    static void make() throws IOException {
        disk = Demo.write(folder, Demo.Variant.PARTLY_READ);
        summary = Cli.run("files", disk.image(), "--read-map", disk.readMap(), "--summary", "--json").json();
    }

    private static List<JsonNode> files(Object... more) throws IOException {
        Object[] all = new Object[more.length + 5];
        System.arraycopy(new Object[] {"files", disk.image(), "--read-map", disk.readMap(), "--json"}, 0, all, 0, 5);
        System.arraycopy(more, 0, all, 5, more.length);
        return Cli.run(all).jsonLines();
    }

    @Test
    void damagedPlacesSayWhatTheyHold() throws IOException {
        Map<String, String> parts = new HashMap<>();
        for (JsonNode file : files("--volume", "4")) {
            if (file.get("state").asText().equals("damaged")) {
                parts.put(file.get("path").asText(), file.get("damage").toString());
            }
        }
        assertEquals("[[0,4096,\"header\"]]", parts.get("PICTURES/100RIDGE/FRM_0207.JPG"), "its first eight sectors");
        assertTrue(parts.get("PICTURES/100RIDGE/FRM_0211.JPG").matches("\\[\\[\\d+,\\d+,\"tail\"]]"), "its second half: " + parts);
    }

    @Test
    void sumsAgreeWithTheListOfFiles() throws IOException {
        for (JsonNode volume : summary.get("volumes")) {
            long count = 0;
            long bytes = 0;
            Map<String, Long> states = new HashMap<>();
            for (JsonNode file : files("--volume", volume.get("number").asText())) {
                boolean structure = volume.get("kind").asText().equals("ntfs") && file.get("path").asText().startsWith("$");
                if (!file.get("folder").asBoolean() && !file.get("deleted").asBoolean() && !structure) {
                    count++;
                    bytes += file.get("bytes").asLong();
                    states.merge(file.get("state").asText(), 1L, Long::sum);
                }
            }
            JsonNode all = volume.get("all");
            assertEquals(count, all.get("files").asLong(), volume.toString());
            assertEquals(bytes, all.get("bytes").asLong());
            for (String state : List.of("complete", "damaged", "lost")) {
                assertEquals(states.getOrDefault(state, 0L), all.get(state).asLong(), state);
            }
            long kinds = 0;
            for (JsonNode kind : volume.get("kinds")) {
                kinds += kind.get("files").asLong();
            }
            assertEquals(count, kinds);
        }
    }

    @Test
    void sumsOfAFatVolumeAreThoseOfFindAndDuOnItsFilesCopiedOutByAnotherTool() throws IOException {
        Tool.require("mcopy", "find", "du");
        Path sound = Demo.write(folder, Demo.Variant.GPT_SOUND).image();
        Path out = Files.createDirectories(folder.resolve("copied"));
        Tool.run("sh", "-c", "MTOOLS_SKIP_CHECK=1 mcopy -s -n -i '" + sound + "@@" + 2048 * 512L + "' '::/*' '" + out + "'").ok();
        JsonNode volume = Cli.run("files", sound, "--summary", "--json").json().get("volumes").get(0).get("all");
        assertEquals(Tool.run("sh", "-c", "find '" + out + "' -type f | wc -l").ok().strip(), volume.get("files").asText());
        assertEquals(Tool.run("sh", "-c", "find '" + out + "' -type f -print0 | du -b -c --files0-from=- | tail -1 | cut -f1").ok().strip(), volume.get("bytes").asText());
    }

    @Test
    void testsSayWhyAFileIsDamagedAndNeverCallAFilledOneGood() throws IOException {
        int opened = 0;
        for (JsonNode file : files("--volume", "2", "--test", "--no-deleted")) {
            if (file.get("folder").asBoolean()) {
                assertFalse(file.has("test"));
                continue;
            }
            JsonNode test = file.get("test");
            boolean missing = file.get("readBytes").asLong() < file.get("bytes").asLong();
            assertEquals(missing, missing && test.get("result").asText().equals("damaged"), file.toString());
            opened += test.get("result").asText().equals("opened") ? 1 : 0;
        }
        assertTrue(opened >= 11, "opened " + opened);
    }

    @Test
    void headsSpeedAndWishesShapeThePlan() throws IOException {
        Path zones = Files.writeString(folder.resolve("zones.csv"), "first_lba,sectors,head\n0,34852,0\n34852,396452,1\n431304,92984,0\n");
        JsonNode plan = Cli.run("plan", disk.image(), "--read-map", disk.readMap(), "--zones", zones, "--weak", "1", "--speed", "20", "--kind", "sound", "--json").json();
        boolean weak = false;
        for (JsonNode stage : plan.get("stages")) {
            assertFalse(weak && !stage.get("weak").asBoolean(), "weak heads last");
            weak |= stage.get("weak").asBoolean();
            assertTrue(stage.get("seconds").asDouble() > 0);
            for (JsonNode range : stage.get("ranges")) {
                boolean headOne = range.get(0).asLong() >= 34852 && range.get(0).asLong() < 431304;
                assertEquals(stage.get("weak").asBoolean(), headOne, range.toString());
            }
        }
        assertTrue(weak);
        JsonNode one = Cli.run("plan", disk.image(), "--read-map", disk.readMap(), "--zones", zones, "--head", "0", "--json").json();
        long sectors = 0;
        for (JsonNode stage : one.get("stages")) {
            sectors += stage.get("sectors").asLong();
        }
        assertEquals(34 + 1, sectors, "the end of the disk, and one failed sector");
        assertEquals(2, Cli.run("plan", disk.image(), "--weak", "1").status());
    }

    /** Texts for people come in the language that was asked for, words of the engines included; JSON keeps the English words. */
    @Test
    void germanIsGermanThroughout() {
        german(List.of("Stufe 1: beide Enden der Platte", "Partitionstabellen und Bootsektoren", "noch nicht gelesenen Sektoren"),
                List.of("Stage", "stage", "sectors", "ranges", "To read", "saved", "maps and boot", "file table", "allocated", "in use by", "failed in", "folders", "chosen files"), "plan");
        german(List.of("beschädigt (", "Bytes fehlen: ", "vollständig ", "gelöscht", "belegt "),
                List.of(" bytes", "missing", "complete", "damaged", "lost ", "unknown", "in use", "were not read"), "files", "--volume", "4");
        german(List.of("Dateien", "Bytes gelesen", "innen leer", "Dokument", "Nicht gelesene Sektoren mit Metadaten: 1;"),
                List.of("files", "bytes", "complete", "damaged", "document", "picture", "empty inside", "were not read", "deleted,"), "files", "--summary");
        Cli english = Cli.run("plan", disk.image(), "--read-map", disk.readMap());
        assertTrue(english.out().contains("Stage 1: both ends of the disk"), english.out());
        assertEquals(Cli.run("plan", disk.image(), "--read-map", disk.readMap(), "--json").out(),
                Cli.run("plan", disk.image(), "--read-map", disk.readMap(), "--json", "--language", "de").out());
    }

    @Test
    void everyPrintedTextIsThereInBothLanguages() throws IOException {
        Map<String, String> english = texts("texts.properties");
        Map<String, String> german = texts("texts_de.properties");
        assertEquals(english.keySet(), german.keySet());
        english.forEach((key, places) -> assertEquals(places, german.get(key), key));
        sectorglass.image.Texts texts = new sectorglass.image.Texts(sectorglass.cli.Main.class, java.util.Locale.GERMAN);
        for (sectorglass.recovery.outcome.FileKind kind : sectorglass.recovery.outcome.FileKind.values()) {
            assertTrue(!texts.of("kind." + kind.word().replace(' ', '-')).isEmpty(), kind.word());
        }
        for (sectorglass.recovery.opening.TestResult.Answer answer : sectorglass.recovery.opening.TestResult.Answer.values()) {
            assertTrue(!texts.of("test." + answer.name().toLowerCase(java.util.Locale.ROOT)).isEmpty(), answer.word());
        }
        for (sectorglass.disk.FileState state : sectorglass.disk.FileState.values()) {
            assertTrue(!texts.of("state." + state.word()).isEmpty(), state.word());
        }
    }

    /** The places of each text, by key. */
    private static Map<String, String> texts(String file) throws IOException {
        java.util.Properties read = new java.util.Properties();
        try (java.io.InputStream in = sectorglass.cli.Main.class.getResourceAsStream(file)) {
            read.load(new java.io.InputStreamReader(in, java.nio.charset.StandardCharsets.UTF_8));
        }
        Map<String, String> places = new HashMap<>();
        read.forEach((key, text) -> places.put((String) key, java.util.regex.Pattern.compile("\\{\\d}").matcher((String) text).results()
                .map(java.util.regex.MatchResult::group).sorted().toList().toString()));
        return places;
    }

    private static void german(List<String> words, List<String> none, String command, Object... more) {
        List<Object> all = new java.util.ArrayList<>(List.of(command, disk.image(), "--read-map", disk.readMap(), "--language", "de"));
        all.addAll(List.of(more));
        Cli said = Cli.run(all.toArray());
        assertEquals(0, said.status(), said.err());
        words.forEach(word -> assertTrue(said.out().contains(word), word + " is not in\n" + said.out()));
        none.forEach(word -> assertTrue(!said.out().contains(word), word + " is in\n" + said.out()));
    }
}
