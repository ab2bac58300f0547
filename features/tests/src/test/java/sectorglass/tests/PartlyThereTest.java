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
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

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

    /** Parts of an odd size cut sectors: in a wrong order even sectors stand off their places, and no map or volume behind the first part is seen. */
    @ParameterizedTest
    @CsvSource({"0 1 2 3 4", "0 2 1 3 4", "0 3 1 2 4", "0 4 3 2 1", "2 1 0 3 4"})
    void partsThatCutSectorsAreOrdered(String order) throws Exception {
        int[] numbers = Arrays.stream(order.split(" ")).mapToInt(Integer::parseInt).toArray();
        byte[] image = image("ntfs-volumes", "small-clusters-512-subdirs");
        int size = image.length / 5 + 77; // the last one is smaller, as the last one of a set is
        Path first = oddParts(image, size, numbers);
        List<Integer> places = proposed(first);
        for (int i = 0; i < numbers.length; i++) {
            assertEquals(numbers[i] + 1, places.get(i), places + " for " + order);
        }
    }

    /** The order is written as a part list, which opens the parts in it; bytes stand behind the files since sectors cannot tell where parts begin. */
    @Test
    void theOrderIsWrittenAsAPartList() throws Exception {
        byte[] image = image("ntfs-volumes", "small-clusters-512-subdirs");
        Path whole = Files.write(folder.resolve("whole.img"), image);
        Path first = oddParts(image, image.length / 5 + 77, 0, 3, 1, 2, 4);
        Path list = folder.resolve("order.csv");
        assertEquals(0, Cli.run("layout", first, "--parts-to", list).status());
        List<String> lines = Files.readAllLines(list);
        assertEquals("first_lba,sectors,file,first_byte,bytes", lines.get(0));
        assertTrue(lines.get(2).contains("\"odd.003\"," + (image.length / 5 + 77)), lines.toString());
        Cli ordered = Cli.run("verify", first, "--part-list", list, "--json");
        assertEquals(Cli.run("verify", whole, "--json").json().get("counts"), ordered.json().get("counts"));
        assertEquals(6, Cli.run("layout", first, "--parts-to", list).status(), "never over a file");
        Path job = folder.resolve("job.json");
        Files.writeString(job, "{\"version\":1,\"parts\":[{\"file\":\"odd.001\",\"firstLba\":0},{\"firstLba\":9,\"bytes\":5000},{\"file\":\"gone.bin\",\"firstLba\":12,\"bytes\":1096}]}");
        JsonNode parts = Cli.run("layout", first, "--job", job, "--json").json().get("parts");
        assertTrue(parts.get(1).get("file").isNull() && parts.get(1).get("bytes").asInt() == 5000, parts.toString());
        assertTrue(parts.get(2).get("file").isNull() && parts.get(2).get("bytes").asInt() == 1096, parts.toString());
    }

    /**
     * Borders within file records: each record carries its fix-ups in the last two bytes of every 512 (Linux kernel fs/ntfs3/ntfs.h, NTFS_RECORD_HEADER), so only
     * the right successor makes it sound.
     */
    @ParameterizedTest
    @CsvSource({"0 1 2 3", "0 2 1 3", "0 1 3 2"})
    void recordsCutByABorderJoinParts(String order) throws Exception {
        byte[] image = image("ntfs-volumes", "small-clusters-512-subdirs");
        List<Integer> records = new ArrayList<>();
        for (int at = 0; at < image.length; at += 1024) {
            if (new String(image, at, 4, java.nio.charset.StandardCharsets.ISO_8859_1).equals("FILE")) {
                records.add(at);
            }
        }
        int[] cuts = {0, records.get(records.size() / 4) + 300, records.get(records.size() / 2) + 701, records.get(records.size() - 4) + 55, image.length};
        String[] numbers = order.split(" ");
        for (int i = 0; i < numbers.length; i++) {
            int part = Integer.parseInt(numbers[i]);
            Files.write(folder.resolve("cut.00" + (i + 1)), Arrays.copyOfRange(image, cuts[part], cuts[part + 1]));
        }
        JsonNode parts = Cli.run("layout", folder.resolve("cut.001"), "--json").json().get("parts");
        for (int i = 0; i < numbers.length; i++) {
            assertEquals(Integer.parseInt(numbers[i]) + 1, parts.get(i).get("proposed").asInt(), parts.toString());
            if (i + 1 < numbers.length) {
                assertEquals(Integer.parseInt(numbers[i]) + 1 == Integer.parseInt(numbers[i + 1]), parts.get(i).get("joinedToNext").asBoolean(), parts.toString());
            }
        }
    }

    private Path oddParts(byte[] image, int size, int... order) throws Exception {
        for (int i = 0; i < order.length; i++) {
            Files.write(folder.resolve("odd.00" + (i + 1)), Arrays.copyOfRange(image, order[i] * size, Math.min(image.length, (order[i] + 1) * size)));
        }
        return folder.resolve("odd.001");
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
