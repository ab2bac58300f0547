package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.make.Demo;

/** Sectors put in twice or lost in the middle of a disk: one finding says so, and what fails behind follows from it. */
class DisplacementTest {
    @TempDir
    Path folder;

    private Path shifted(int sectors) throws IOException {
        Path image = folder.resolve("late.img");
        try (RandomAccessFile from = new RandomAccessFile(Demo.write(folder, Demo.Variant.GPT_SOUND).image().toFile(), "r");
                RandomAccessFile to = new RandomAccessFile(image.toFile(), "rw")) {
            byte[] chunk = new byte[1 << 20];
            long at = 200_000L * 512;
            for (long done = 0; done < from.length(); done += chunk.length) {
                from.readFully(chunk);
                boolean straight = done + chunk.length <= at;
                if (straight) {
                    to.write(chunk);
                } else {
                    int before = (int) Math.max(0, Math.min(chunk.length, at - done));
                    to.write(chunk, 0, before);
                    if (before > 0 || done == at) {
                        to.write(new byte[sectors * 512]);
                    }
                    to.write(chunk, before, chunk.length - before);
                }
            }
        }
        return image;
    }

    @Test
    void eightSectorsPutInAreOneFinding() throws IOException {
        JsonNode findings = Cli.run("verify", shifted(8), "--json").json().get("findings");
        JsonNode found = null;
        for (JsonNode finding : findings) {
            found = finding.get("check").asText().equals("disk.displacement") ? finding : found;
        }
        assertTrue(found != null, findings.toString());
        assertTrue(found.get("what").asText().contains("8 sectors late"), found.toString());
        assertTrue(found.get("count").asInt() > 5, "what fails behind must follow from it: " + findings);
        // beside it only what the primary header says of a backup that does not stand where it names it
        assertEquals(2, findings.size(), findings.toString());
    }
}
