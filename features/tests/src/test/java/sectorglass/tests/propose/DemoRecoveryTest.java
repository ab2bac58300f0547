package sectorglass.tests.propose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;

import sectorglass.cli.Main;
import sectorglass.make.Demo;

/** A demo disk with a wiped sector 0 and a damaged GPT is brought back, on a copy, to what it was; the damaged image stays as it is. */
class DemoRecoveryTest {
    @TempDir
    static Path folder;
    private static Path wiped;
    private static Path sound;

    private record Said(int status, String out, String err) { }

    @BeforeAll
    static void write() throws Exception {
        wiped = Demo.write(folder, Demo.Variant.WIPED).image();
        sound = Demo.write(folder, Demo.Variant.GPT_SOUND).image();
    }

    private static Said run(Object... args) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int status = Main.run(java.util.Arrays.stream(args).map(Object::toString).toArray(String[]::new),
                new PrintStream(out, false, StandardCharsets.UTF_8), new PrintStream(err, true, StandardCharsets.UTF_8));
        return new Said(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    private static String hash(Path file) throws Exception {
        MessageDigest sha = MessageDigest.getInstance("SHA-256");
        try (var in = Files.newInputStream(file)) {
            byte[] part = new byte[1 << 20];
            for (int n = in.read(part); n > 0; n = in.read(part)) {
                sha.update(part, 0, n);
            }
        }
        return HexFormat.of().formatHex(sha.digest());
    }

    @Test
    void theWipedDiskComesBackByteByByteAndTheImageStays() throws Exception {
        String before = hash(wiped);
        FileTime time = Files.getLastModifiedTime(wiped);
        Files.setPosixFilePermissions(wiped, PosixFilePermissions.fromString("r--r--r--"));
        Path to = folder.resolve("out");
        Said said = run("propose", wiped, "--to", to, "--json");
        assertEquals(0, said.status(), said.err());
        assertEquals(before, hash(wiped));
        assertEquals(time, Files.getLastModifiedTime(wiped));
        assertEquals(-1, Files.mismatch(sound, to.resolve("corrected.img")));
        JsonNode best = new ObjectMapper().readTree(said.out()).get("proposals").get(0);
        assertEquals(List.of("gpt.primary", "mbr.protective"), best.get("steps").findValuesAsText("id"));
        assertFalse(best.get("harms").asBoolean());
        assertEquals(0, best.at("/checks/after/unusable").asInt() + best.at("/checks/after/atRisk").asInt());
        for (JsonNode step : best.get("steps")) {
            for (JsonNode range : step.get("ranges")) {
                assertFalse(range.get("why").asText().isBlank(), "each range is explained");
                assertEquals(range.get("length").asInt() * 2, range.get("old").asText().length());
            }
        }
        assertTrue(best.at("/checks/turned").findValuesAsText("check").contains("gpt.header.crc32"));
        assertTrue(best.at("/steps/1/kept").findValuesAsText("field").contains("boot code"));
    }

    @Test
    void sectorsAreExportedWholeWithTheirLba() throws Exception {
        Path to = folder.resolve("sectors");
        assertEquals(0, run("propose", wiped, "--to", to, "--no-copy", "--quiet").status());
        assertFalse(Files.exists(to.resolve("corrected.img")));
        byte[] original = Files.readAllBytes(sound);
        List<String> lines = Files.readAllLines(to.resolve("01-together/sectors.csv"));
        assertEquals("first_lba,sectors,file", lines.get(0));
        for (String line : lines.subList(1, lines.size())) {
            String[] cells = line.split(",");
            byte[] written = Files.readAllBytes(to.resolve("01-together").resolve(cells[2]));
            int first = Integer.parseInt(cells[0]) * 512;
            assertEquals(Integer.parseInt(cells[1]) * 512, written.length);
            assertTrue(java.util.Arrays.equals(written, 0, written.length, original, first, first + written.length), line);
        }
        assertEquals(6, run("propose", wiped, "--to", to, "--no-copy", "--quiet").status(), "nothing is written over");
    }

    @Test
    void bytesByHandBringTheirChecksumsAlong() throws Exception {
        Path to = folder.resolve("hand");
        // the first byte of the first entry's UniquePartitionGUID in both arrays of the sound disk
        Said said = run("propose", sound, "--set", (2 * 512 + 16) + "=AA", "--to", to, "--json");
        assertEquals(0, said.status(), said.err());
        JsonNode hand = new ObjectMapper().readTree(said.out()).get("proposals").get(0);
        assertEquals("hand", hand.get("id").asText());
        assertTrue(hand.at("/steps/0/ranges").findValuesAsText("why").stream().anyMatch(why -> why.startsWith("CRC-32 of the entries")), said.out());
        assertTrue(hand.at("/steps/0/ranges").findValuesAsText("why").stream().anyMatch(why -> why.startsWith("CRC-32 of the header")));
        assertFalse(Files.exists(to.resolve("corrected.img")), "what needs agreement is not taken as the best");
        assertEquals(2, run("propose", sound, "--set", "nonsense").status());
    }

    @Test
    void aSoundDiskGetsNoProposal() throws Exception {
        Said said = run("propose", sound, "--json");
        assertEquals(0, said.status(), said.err());
        assertEquals("{\"proposals\":[]}", said.out().strip());
    }
}
