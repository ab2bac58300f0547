package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

/** Marks are kept beside the image, never in it. */
class MarksCommandTest {
    @TempDir
    Path folder;

    @Test
    void marksAreAddedListedAndRemoved() throws IOException {
        Path image = Files.write(folder.resolve("disk.img"), new byte[8 * 512]);
        Cli added = Cli.run("marks", image, "--add", "first", "--at", "520", "--length", "8", "--note", "look here", "--json");
        assertEquals(0, added.status(), added.err());
        JsonNode mark = added.json().get("marks").get(0);
        assertEquals("first", mark.get("name").asText());
        assertEquals(1, mark.get("lba").asLong());
        assertEquals(8, mark.get("byteInSector").asLong());
        assertTrue(Files.exists(folder.resolve("disk.img.job.json")));
        assertArrayEquals(new byte[8 * 512], Files.readAllBytes(image));
        assertTrue(Cli.run("marks", image).out().contains("look here"));
        assertTrue(Cli.run("marks", image, "--csv").out().contains("\"first\",520,8,1,8,\"look here\""));
        assertEquals(0, Cli.run("marks", image, "--remove", "first").status());
        assertEquals(2, Cli.run("marks", image, "--remove", "first").status());
        assertEquals(0, Cli.run("marks", image, "--json").json().get("marks").size());
    }

    @Test
    void aMarkOutsideTheImageIsRefused() throws IOException {
        Path image = Files.write(folder.resolve("disk.img"), new byte[512]);
        assertEquals(2, Cli.run("marks", image, "--add", "a", "--at", "500", "--length", "13").status());
        assertEquals(2, Cli.run("marks", image, "--add", "a").status());
        assertTrue(Files.notExists(folder.resolve("disk.img.job.json")));
    }
}
