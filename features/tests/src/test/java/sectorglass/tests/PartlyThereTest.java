package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.testkit.Corpus;

/** Chunk sets whose order the structures prove or contradict, and images that end before their partitions do. */
class PartlyThereTest {
    private static final int PARTS = 4;

    @TempDir
    Path folder;

    private byte[] image(String from, String name) throws Exception {
        Path packed = Corpus.files(from, "").stream().filter(p -> p.getFileName().toString().startsWith(name + ".img.")).findFirst().orElseThrow();
        return Files.readAllBytes(Corpus.unpack(packed, Files.createDirectory(folder.resolve("unpacked"))));
    }

    /** Writes the parts of the image, part {@code order[i]} under the number i. */
    private Path parts(byte[] image, int... order) throws Exception {
        int size = image.length / PARTS / 512 * 512;
        for (int i = 0; i < PARTS; i++) {
            int from = order[i] * size;
            Files.write(folder.resolve("disk.00" + (i + 1)), Arrays.copyOfRange(image, from, order[i] == PARTS - 1 ? image.length : from + size));
        }
        return folder.resolve("disk.001");
    }

    private static List<Integer> proposed(Path first) {
        List<Integer> places = new ArrayList<>();
        Cli.run("layout", first, "--json").json().get("parts").forEach(part -> places.add(part.get("proposed").asInt()));
        return places;
    }

    /** The file records of NTFS hold their own numbers (ntfs.h, MFT_REC.rec_num): each proves the place of its part. */
    @Test
    void recordsProveTheOrderOfParts() throws Exception {
        byte[] image = image("ntfs-volumes", "small-clusters-512-subdirs");
        Path first = parts(image, 0, 1, 2, 3);
        assertEquals(List.of(1, 2, 3, 4), proposed(first));
        Cli text = Cli.run("layout", first);
        assertTrue(text.out().contains("Parts of the image"), text.out());
        assertFalse(text.out().contains("another order"), text.out());
        assertTrue(Cli.run("layout", first, "--json").json().get("parts").get(0).get("agreeing").asInt() > 0);
    }

    @Test
    void oneFileHasNoParts() throws Exception {
        Path whole = Files.write(folder.resolve("whole.img"), image("ntfs-volumes", "small-clusters-512-subdirs"));
        assertTrue(Cli.run("layout", whole, "--json").json().get("parts").isNull());
    }

    /** Sizes from the table itself: what is missing is its sum without the sectors that are there. */
    @Test
    void anImageShorterThanItsTableSaysHowManyBytesOfWhichPartitionAreMissing() throws Exception {
        byte[] image = image("probe-partitions", "gpt");
        Path whole = Files.write(folder.resolve("whole.img"), image);
        Path cut = Files.write(folder.resolve("cut.img"), Arrays.copyOf(image, 3 << 20));
        assertFalse(Cli.run("verify", whole, "--json").checks().contains("disk.image-shorter"));
        long sectors = (3 << 20) / 512;
        int told = 0;
        JsonNode findings = Cli.run("verify", cut, "--json").json().get("findings");
        for (JsonNode partition : Cli.run("layout", whole, "--json").json().get("partitions")) {
            long end = partition.get("firstLba").asLong() + partition.get("sectors").asLong();
            long missing = Math.max(0, end - Math.max(sectors, partition.get("firstLba").asLong())) * 512;
            for (JsonNode finding : findings) {
                boolean here = finding.get("check").asText().equals("disk.image-shorter")
                        && finding.get("what").asText().contains("partition " + partition.get("number").asInt() + " does");
                if (here) {
                    assertTrue(missing > 0 && finding.get("what").asText().contains(missing + " bytes"), finding.toString());
                    told++;
                }
            }
        }
        assertTrue(told > 0, findings.toString());
        JsonNode backup = findings.findValue("check");
        assertTrue(findings.toString().contains("gpt.header.alternate-lba") && backup != null, findings.toString());
    }
}
