package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Map;
import java.util.zip.GZIPOutputStream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.testkit.Tool;

/** Commands, exit statuses and JSON, on disks that sfdisk made. */
class CommandLineTest {
    @TempDir
    Path folder;

    private Path gpt() throws IOException {
        Path image = folder.resolve("gpt.img");
        try (FileChannel out = FileChannel.open(image, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
            out.write(ByteBuffer.wrap(new byte[1]), (64 << 20) - 1);
        }
        Tool.run(Map.of(), """
                label: gpt
                label-id: 01234567-89AB-CDEF-0123-456789ABCDEF
                first-lba: 34
                start=2048, size=32768, type=C12A7328-F81F-11D2-BA4B-00A0C93EC93B, name="EFI-A"
                start=34816, size=96223, type=0FC63DAF-8483-4772-8E79-3D69D8477DE4, name="Data"
                """, 20, "sfdisk", "-q", image.toString()).ok();
        return image;
    }

    private static void flip(Path image, long at) throws IOException {
        try (FileChannel file = FileChannel.open(image, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
            ByteBuffer one = ByteBuffer.allocate(1);
            file.read(one, at);
            one.put(0, (byte) (one.get(0) ^ 1));
            file.write(one.flip(), at);
        }
    }

    @Test
    void layoutTellsWhatSfdiskMade() throws IOException {
        Path image = gpt();
        Cli said = Cli.run("layout", image, "--json");
        assertEquals(0, said.status(), said.err());
        JsonNode layout = said.json();
        assertEquals(64L << 20, layout.at("/image/bytes").asLong());
        assertEquals(512, layout.at("/image/sectorSize").asInt());
        assertEquals("01234567-89ab-cdef-0123-456789abcdef", find(layout.get("maps"), "kind", "gpt").get("id").asText());
        assertTrue(find(layout.get("maps"), "kind", "gpt").get("consistent").asBoolean());
        assertEquals(2, layout.get("partitions").size());
        JsonNode first = layout.get("partitions").get(0);
        assertEquals(2048, first.get("firstLba").asLong());
        assertEquals(32768, first.get("sectors").asLong());
        assertEquals("c12a7328-f81f-11d2-ba4b-00a0c93ec93b", first.get("type").asText());
        assertEquals("EFI-A", first.get("name").asText());
        assertEquals(131072, layout.at("/readState/read").asLong());
        assertEquals(0, Cli.run("layout", image).status());
    }

    private static JsonNode find(JsonNode array, String key, String value) {
        for (JsonNode node : array) {
            if (node.path(key).asText().equals(value)) {
                return node;
            }
        }
        throw new AssertionError("no " + key + " " + value + " in " + array);
    }

    @Test
    void verifySaysSoundDamagedOrUndecidedByItsStatus() throws IOException {
        Path image = gpt();
        Cli sound = Cli.run("verify", image, "--json");
        assertEquals(0, sound.status(), sound.out());
        assertTrue(sound.json().at("/counts/passed").asInt() > 20, sound.out());

        Path map = folder.resolve("map.csv");
        Files.writeString(map, "first_lba,sectors,state\n0,1,read\n1,1,failed\n2,131070,read\n");
        Cli undecided = Cli.run("verify", image, "--json", "--read-map", map);
        assertEquals(5, undecided.status(), undecided.out());
        assertTrue(undecided.out().contains("\"missing\":[[1,1]]"), undecided.out());

        flip(image, 568);
        Cli damaged = Cli.run("verify", image, "--json");
        assertEquals(1, damaged.status());
        JsonNode crc = find(damaged.json().get("findings"), "check", "gpt.header.crc32");
        // UEFI 2.10, section 5.3.2: HeaderCRC32 at byte 16 of LBA 1
        assertEquals(528, crc.get("firstByte").asLong());
        assertEquals(1, crc.get("lba").asLong());
        assertEquals("unusable", crc.get("severity").asText());
        assertFalse(crc.get("source").asText().isBlank());
        assertEquals(1, Cli.run("verify", image).status());
    }

    @Test
    void explainNamesEachFieldWithItsBytes() throws IOException {
        Path image = gpt();
        JsonNode explained = Cli.run("explain", image, "--lba", 1, "--json").json();
        assertEquals("gpt_header", explained.get("format").asText());
        JsonNode my = null;
        for (JsonNode field : explained.get("fields")) {
            if (field.get("firstByte").asLong() == 512 + 24 && field.get("length").asInt() == 8) {
                my = field;
            }
        }
        assertTrue(my != null, explained.toString());
        assertEquals("0100000000000000", my.get("hex").asText());
        assertEquals(1, my.get("raw").asLong());
        assertEquals(0, Cli.run("explain", image, "--at", "0x1BE").status());
        assertEquals(2, Cli.run("explain", image, "--lba", 131072).status());
        assertEquals(2, Cli.run("explain", image, "--lba", 0, "--format", "nosuch").status());
    }

    @Test
    void wrongUseAndUnreadableImagesHaveTheirStatusAndASentence() throws IOException {
        assertEquals(2, Cli.run("nonsense").status());
        assertEquals(2, Cli.run("layout").status());
        assertEquals(2, Cli.run("layout", "a", "--sector-size", "513").status());
        Path gzip = folder.resolve("packed.img");
        try (GZIPOutputStream out = new GZIPOutputStream(Files.newOutputStream(gzip))) {
            out.write(new byte[100_000]);
        }
        for (Object bad : new Object[] {folder.resolve("missing.img"), folder, gzip, Files.createFile(folder.resolve("empty.img"))}) {
            Cli said = Cli.run("layout", bad);
            assertEquals(3, said.status(), bad + said.err());
            assertTrue(said.err().strip().lines().count() == 1 && said.err().strip().endsWith("."), said.err());
            assertFalse(said.err().contains("Exception"), said.err());
        }
        assertEquals(0, Cli.run("--help").status());
        assertEquals(0, Cli.run("layout", "--help").status());
    }

    @Test
    void aJobFileGivesReadMapsAndKeepsALog() throws IOException {
        Path image = gpt();
        Files.writeString(folder.resolve("map.csv"), "first_lba,sectors,state\n0,1,read\n1,1,failed\n2,131070,read\n");
        Path job = folder.resolve("job.json");
        Files.writeString(job, "{\"version\":1,\"readMaps\":[\"map.csv\"]}");
        Cli said = Cli.run("verify", image, "--json", "--job", job);
        assertEquals(5, said.status(), said.out() + said.err());
        assertTrue(Files.readString(job).contains("verify " + image + ": status 5"), Files.readString(job));
        Cli.run("layout", image, "--json", "--job", job);
        assertEquals(2, new com.fasterxml.jackson.databind.ObjectMapper().readTree(Files.readString(job)).get("log").size());
        Files.writeString(job, "no json");
        assertEquals(2, Cli.run("layout", image, "--job", job).status());
        assertEquals("no json", Files.readString(job));
    }

    @Test
    void findTellsEveryPlaceAndWhatWasNotRead() throws IOException {
        Path image = gpt();
        Cli found = Cli.run("find", image, "--text", "EFI PART", "--json");
        assertEquals(0, found.status(), found.err());
        assertEquals(2, found.jsonLines().size());
        assertEquals(512, found.jsonLines().get(0).get("firstByte").asLong());
        assertEquals(131071, found.jsonLines().get(1).get("lba").asLong());
        Path map = folder.resolve("map.csv");
        Files.writeString(map, "first_lba,sectors,state\n0,1,read\n1,1,failed\n2,131070,read\n");
        Cli partly = Cli.run("find", image, "--text", "EFI PART", "--read-map", map);
        assertTrue(partly.out().contains("1 place; 1 sector was not read"), partly.out());
    }

    @Test
    void compareMergesOnlyCopiesOfOneDiskAndNeverOverAFile() throws IOException {
        Path a = gpt();
        Path b = folder.resolve("b.img");
        Files.copy(a, b);
        flip(b, 568);
        Path merged = folder.resolve("merged.img");
        Cli said = Cli.run("compare", b, a, "--merge-to", merged, "--json");
        assertEquals(0, said.status(), said.err());
        assertEquals(-1, Files.mismatch(a, merged), "the sound header must be taken from the copy that passes its checks");
        assertTrue(Files.readString(folder.resolve("merged.img.log.csv")).contains("passes the structure's checks"));
        assertEquals(6, Cli.run("compare", a, a, "--merge-to", merged).status());

        Path other = folder.resolve("other.img");
        Files.copy(a, other);
        Tool.run("sfdisk", "--disk-id", other.toString(), "11111111-2222-3333-4444-555555555555").ok();
        Path never = folder.resolve("never.img");
        Cli stopped = Cli.run("compare", a, other, "--merge-to", never);
        assertEquals(2, stopped.status(), stopped.out());
        assertTrue(stopped.err().contains("--merge-anyway"), stopped.err());
        assertFalse(Files.exists(never));
        assertEquals(0, Cli.run("compare", a, other, "--merge-to", never, "--merge-anyway").status());
        assertTrue(Files.readString(folder.resolve("never.img.log.csv")).contains("on the word of the person"));
    }
}
