package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.security.MessageDigest;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.make.Demo;
import sectorglass.make.PlantedFault;

/** The demo disk: every planted fault is found, nothing else is; its files come out as they were put in; a partly read one tells the truth. */
class DemoFaultsTest {
    @TempDir
    static Path folder;
    private static final Map<Demo.Variant, Demo.Written> DEMO = new HashMap<>();

    @BeforeAll
    static void write() throws IOException {
        for (Demo.Variant variant : Demo.Variant.values()) {
            DEMO.put(variant, Demo.write(folder, variant));
        }
    }

    @TestFactory
    List<DynamicTest> everyPlantedFaultIsFoundAndNothingElse() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Demo.Variant variant : List.of(Demo.Variant.GPT, Demo.Variant.MBR)) {
            Demo.Written made = DEMO.get(variant);
            tests.add(DynamicTest.dynamicTest(variant.name(), () -> {
                Cli said = Cli.run("verify", made.image(), "--full", "--json");
                assertEquals(1, said.status(), said.err());
                TreeSet<String> found = new TreeSet<>(said.checks());
                TreeSet<String> planted = new TreeSet<>();
                made.faults().stream().map(PlantedFault::check).forEach(planted::add);
                assertEquals(planted, found, said.out());
            }));
        }
        return tests;
    }

    @TestFactory
    List<DynamicTest> explainNamesFindingsByTheIdsOfVerify() {
        return List.of(Demo.Variant.GPT, Demo.Variant.MBR).stream().map(variant -> DynamicTest.dynamicTest(variant.name(), () -> {
            Path image = DEMO.get(variant).image();
            Map<Integer, JsonNode> listed = new HashMap<>();
            Cli.run("verify", image, "--json").json().get("findings").forEach(f -> listed.put(f.get("id").asInt(), f));
            int named = 0;
            for (JsonNode finding : listed.values()) {
                for (JsonNode field : Cli.run("explain", image, "--at", finding.get("firstByte"), "--json").json().get("fields")) {
                    for (JsonNode id : field.get("findings")) {
                        JsonNode same = listed.get(id.asInt());
                        assertTrue(same != null, id + " is no finding of verify");
                        long first = same.get("firstByte").asLong();
                        long start = field.get("firstByte").asLong();
                        assertTrue(first < start + field.get("length").asLong() && start < first + same.get("length").asLong(), field + " " + same);
                        named += same == finding ? 1 : 0;
                    }
                }
            }
            assertTrue(named >= 3, "only " + named + " findings have a field");
        })).toList();
    }

    @Test
    void theSoundDisksAreSound() {
        for (Demo.Variant variant : List.of(Demo.Variant.GPT_SOUND, Demo.Variant.MBR_SOUND)) {
            Cli said = Cli.run("verify", DEMO.get(variant).image(), "--full", "--json");
            assertEquals(0, said.status(), said.out());
            assertEquals(List.of(), said.checks());
            assertTrue(said.json().at("/counts/passed").asInt() > 100);
            for (JsonNode map : Cli.run("layout", DEMO.get(variant).image(), "--json").json().get("maps")) {
                assertTrue(map.get("consistent").asBoolean() && !map.path("fitsContent").asText().equals("false"), map.toString());
            }
        }
    }

    @Test
    void filesComeOutWithTheHashesOfTheManifest() throws Exception {
        Path image = DEMO.get(Demo.Variant.GPT_SOUND).image();
        for (JsonNode partition : Cli.run("layout", image, "--json").json().get("partitions")) {
            int number = partition.get("number").asInt();
            Path to = folder.resolve("out-" + number);
            Cli said = Cli.run("extract", image, "/", "--volume", number, "--to", to);
            assertEquals(0, said.status(), said.err() + said.out());
            List<String> lines = Files.readAllLines(to.resolve("manifest.csv"));
            assertTrue(lines.size() > 3, lines.toString());
            for (String line : lines.subList(1, lines.size())) {
                String[] cells = line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)", -1);
                Path file = to.resolve(cells[2].replaceAll("^\"|\"$", ""));
                byte[] content = Files.readAllBytes(file);
                assertEquals(Long.parseLong(cells[3]), content.length, line);
                assertEquals(HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content)), cells[4], line);
                assertEquals("complete", cells[5], line);
            }
        }
    }

    @Test
    void aPartlyReadDiskNeverCallsAFileCompleteThatIsNot() throws Exception {
        Demo.Written partly = DEMO.get(Demo.Variant.PARTLY_READ);
        Demo.Written whole = DEMO.get(Demo.Variant.GPT);
        int incomplete = 0;
        for (JsonNode partition : Cli.run("layout", partly.image(), "--read-map", partly.readMap(), "--json").json().get("partitions")) {
            int number = partition.get("number").asInt();
            Path fromWhole = folder.resolve("whole-" + number);
            Path fromPartly = folder.resolve("partly-" + number);
            Cli.run("extract", whole.image(), "/", "--volume", number, "--to", fromWhole);
            Cli said = Cli.run("extract", partly.image(), "/", "--volume", number, "--to", fromPartly, "--read-map", partly.readMap());
            assertTrue(said.status() == 0 || said.status() == 5, said.err());
            List<String> lines = Files.readAllLines(fromPartly.resolve("manifest.csv"));
            for (String line : lines.subList(1, lines.size())) {
                String[] cells = line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)", -1);
                if (!cells[5].equals("complete")) {
                    incomplete++;
                } else if (!cells[0].contains("Without a folder")) {
                    // chains whose folder was not read stand under "Without a folder", with no name to compare by
                    String name = cells[2].replaceAll("^\"|\"$", "");
                    assertEquals(-1, Files.mismatch(fromWhole.resolve(name), fromPartly.resolve(name)), "called complete but differs: " + name);
                }
            }
        }
        assertTrue(incomplete > 0, "the partly read demo must have damaged files");
        Cli plan = Cli.run("plan", partly.image(), "--read-map", partly.readMap(), "--json");
        assertEquals(0, plan.status(), plan.err());
        long planned = plan.json().get("sectors").asLong();
        assertTrue(planned > 0 && planned <= plan.json().get("unread").asLong(), plan.out().substring(0, 200));
    }
}
