package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.testkit.Tool;

/** Places of one image that should agree, and numbered dumps that were taken twice. */
class ComparePlacesTest {
    @TempDir
    Path folder;

    private static JsonNode pair(JsonNode all, String name) {
        for (JsonNode pair : all.get("places")) {
            if (pair.get("name").asText().startsWith(name)) {
                return pair;
            }
        }
        return null;
    }

    private static void put(Path image, long at, int... bytes) throws IOException {
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.seek(at);
            for (int b : bytes) {
                file.write(b);
            }
        }
    }

    /** UEFI 2.10, section 5.3.2: MyLBA, AlternateLBA, PartitionEntryLBA and the checksum over them are all that tells two sound copies apart. */
    @Test
    void copiesOfAGptDifferInTheirPlacesOnly() throws IOException {
        Tool.require("sfdisk");
        Path image = folder.resolve("gpt.img");
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.setLength(8 << 20);
        }
        Path script = Files.writeString(folder.resolve("script"), "label: gpt\nstart=2048, size=4096\n");
        Tool.run("sh", "-c", "sfdisk -q " + image + " < " + script).ok();
        JsonNode all = Cli.run("compare", image, "--json").json();
        JsonNode header = pair(all, "primary GPT header");
        Set<String> fields = new TreeSet<>();
        header.get("fields").forEach(f -> fields.add(f.asText()));
        assertEquals(Set.of("AlternateLBA", "HeaderCRC32", "MyLBA", "PartitionEntryLBA"), fields);
        assertEquals("both", header.get("passes").asText());
        assertEquals(0, pair(all, "primary GPT entries").get("different").asLong());

        put(image, 512 + 56, 0x5A);
        JsonNode damaged = pair(Cli.run("compare", image, "--json").json(), "primary GPT header");
        assertEquals("other", damaged.get("passes").asText());
        assertTrue(damaged.get("fields").toString().contains("DiskGUID"), damaged.toString());
        assertTrue(Cli.run("compare", image).out().contains("the second passes its own checks, the first does not"));
    }

    /** Both FATs as a whole, the boot sector and its backup (Microsoft FAT specification 1.03, sections 3 and 4). */
    @Test
    void fatsAreComparedWholeAndUnreadBytesAreNoDifference() throws IOException {
        Tool.require("mkfs.fat");
        Path image = folder.resolve("fat.img");
        Tool.run("mkfs.fat", "-C", "-F", "32", "-s", "1", "--invariant", image.toString(), "40960").ok();
        JsonNode sound = Cli.run("compare", image, "--json").json();
        JsonNode fats = pair(sound, "FAT 1");
        long length = fats.get("length").asLong();
        assertEquals(0, fats.get("different").asLong());
        assertEquals(length, fats.get("equal").asLong());
        assertEquals(length, fats.get("other").asLong() - fats.get("one").asLong());
        assertEquals(0, pair(sound, "boot sector").get("different").asLong());

        long last = fats.get("other").asLong() + length - 4;
        put(image, last, 1, 2);
        JsonNode differ = pair(Cli.run("compare", image, "--json").json(), "FAT 1");
        assertEquals(2, differ.get("different").asLong());
        assertEquals(length - 4, differ.get("runs").get(0).get("start").asLong());
        assertEquals(2, differ.get("runs").get(0).get("length").asLong());
        assertEquals("both", differ.get("passes").asText(), "that they differ says nothing about which is right");

        Path map = Files.writeString(folder.resolve("map.csv"), "0," + last / 512 + ",read\n" + (last / 512 + 1) + ",100000,read\n");
        JsonNode unread = pair(Cli.run("compare", image, "--read-map", map, "--json").json(), "FAT 1");
        assertEquals(0, unread.get("different").asLong());
        assertEquals(512, unread.get("unknown").asLong());
        assertEquals("not known", unread.get("passes").asText());
    }

    @Test
    void twoPlacesCanBeNamed() throws IOException {
        byte[] bytes = new byte[8192];
        bytes[1024 + 7] = 9;
        Path image = Files.write(folder.resolve("a.img"), bytes);
        JsonNode pair = Cli.run("compare", image, "--at", "0x400", "--at", "2048", "--length", "1024", "--json").json().get("places").get(0);
        assertEquals(1, pair.get("different").asLong());
        assertEquals(7, pair.get("runs").get(0).get("start").asLong());
        assertEquals(2, Cli.run("compare", image, "--at", "0").status());
        assertEquals(2, Cli.run("compare", image, "--at", "0", "--at", "8191", "--length", "2").status());
        assertEquals(2, Cli.run("compare", image, "--at", "-1", "--at", "0").status());
    }

    @Test
    void numberedDumpsAreComparedByNumber() throws IOException {
        Path one = Files.createDirectory(folder.resolve("one"));
        Path other = Files.createDirectory(folder.resolve("other"));
        byte[] content = new byte[70_000];
        java.util.Arrays.fill(content, 65_000, 66_000, (byte) 3);
        Files.write(one.resolve("mod-0007.bin"), content);
        content[66_500] = 1;
        Files.write(other.resolve("7.bin"), content);
        Files.write(one.resolve("mod-0008.bin"), new byte[] {1, 2, 3});
        Files.write(other.resolve("8.bin"), new byte[] {1, 2, 3});
        Files.write(one.resolve("mod-0009.bin"), new byte[] {1, 2, 3, 4});
        Files.write(other.resolve("9.bin"), new byte[] {1, 2});
        Files.write(one.resolve("mod-0010.bin"), new byte[] {1, 2, 3, 4});
        Files.write(other.resolve("10.bin"), new byte[] {0, 0, 0, 0});
        Files.write(other.resolve("11.bin"), new byte[] {0});
        JsonNode dumps = Cli.run("compare", one, other, "--json").json().get("dumps");
        assertEquals(5, dumps.size());
        assertEquals("7 different 1 66500", said(dumps.get(0)));
        assertEquals("8 same 0 null", said(dumps.get(1)));
        assertEquals("9 lengths 0 null", said(dumps.get(2)));
        assertEquals("10 different 4 0", said(dumps.get(3)));
        assertEquals("00", dumps.get(3).get("otherHolds").asText());
        assertTrue(dumps.get(3).get("oneHolds").isNull());
        assertEquals("11 only second 0 null", said(dumps.get(4)));
        assertNotNull(Cli.run("compare", one, other).out());
    }

    private static String said(JsonNode dump) {
        return dump.get("key").asText() + " " + dump.get("answer").asText() + " " + dump.get("different") + " " + dump.get("firstDifference");
    }
}
