package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.testkit.Tool;

/**
 * A camera card of which a part was read. mkfs.fat and mcopy make the card; where its photos stand is asked of mshowfat and fsck.fat, and what
 * must come out is computed from that and from the sectors that this test takes away: nothing of the product takes part in it.
 */
class PartlyReadCardTest {

    private static final int PHOTOS = 24;

    @TempDir
    Path folder;

    private long firstData;
    private int clusterSectors;
    private final Map<String, List<Long>> sectors = new TreeMap<>();
    private final Map<String, Integer> sizes = new TreeMap<>();

    /** Photos of uneven sizes; some of those between them are deleted again, so that later ones lie in pieces. */
    private Path card(int bits, int kib, int perCluster, Random random) throws IOException {
        Tool.require("mkfs.fat", "mmd", "mcopy", "mdel", "mshowfat", "fsck.fat");
        Path image = folder.resolve("card.img");
        Tool.run("mkfs.fat", "-C", "-F", String.valueOf(bits), "-s", String.valueOf(perCluster), "--invariant", image.toString(),
                String.valueOf(kib)).ok();
        Tool.run("mmd", "-i", image.toString(), "::/DCIM", "::/DCIM/100CARD").ok();
        for (int i = 0; i < PHOTOS; i++) {
            copy(image, "FILL" + i + ".TMP", new byte[1 + random.nextInt(6000)]);
        }
        for (int i = 0; i < PHOTOS; i += 2) {
            Tool.run("mdel", "-i", image.toString(), "::/DCIM/100CARD/FILL" + i + ".TMP").ok();
        }
        for (int i = 0; i < PHOTOS; i++) {
            byte[] photo = new byte[1 + random.nextInt(30_000)];
            random.nextBytes(photo);
            String name = "Photo " + i + " of the day.jpg";
            copy(image, name, photo);
            sizes.put(name, photo.length);
        }
        String told = Tool.run("fsck.fat", "-n", "-v", image.toString()).ok();
        firstData = number(told, "Data area starts at byte \\d+ \\(sector (\\d+)\\)");
        clusterSectors = perCluster;
        for (String name : sizes.keySet()) {
            sectors.put(name, sectorsOf(image, name));
        }
        return image;
    }

    private void copy(Path image, String name, byte[] bytes) throws IOException {
        Path file = Files.write(folder.resolve("photo"), bytes);
        Tool.run("mcopy", "-i", image.toString(), file.toString(), "::/DCIM/100CARD/" + name).ok();
    }

    private static long number(String text, String pattern) {
        Matcher found = Pattern.compile(pattern).matcher(text);
        assertTrue(found.find(), text);
        return Long.parseLong(found.group(1));
    }

    /** The sectors of a photo in its order, from the runs of clusters that mshowfat prints. */
    private List<Long> sectorsOf(Path image, String name) {
        String shown = Tool.run("mshowfat", "-i", image.toString(), "::/DCIM/100CARD/" + name).ok();
        List<Long> all = new ArrayList<>();
        Matcher runs = Pattern.compile("<(\\d+)(?:-(\\d+))?>").matcher(shown);
        while (runs.find()) {
            long last = Long.parseLong(runs.group(2) == null ? runs.group(1) : runs.group(2));
            for (long cluster = Long.parseLong(runs.group(1)); cluster <= last; cluster++) {
                for (int i = 0; i < clusterSectors; i++) {
                    all.add(firstData + (cluster - 2) * clusterSectors + i);
                }
            }
        }
        return all;
    }

    /** Zeroes the sectors in the image, as a partial image has them, and writes the read map. */
    private Path take(Path image, TreeSet<Long> lost) throws IOException {
        StringBuilder map = new StringBuilder("first_lba,sectors,state\n");
        try (FileChannel file = FileChannel.open(image, StandardOpenOption.WRITE)) {
            long at = 0;
            for (long lba : lost) {
                file.write(ByteBuffer.allocate(512), lba * 512);
                if (lba > at) {
                    map.append(at).append(',').append(lba - at).append(",read\n");
                }
                map.append(lba).append(",1,").append(lba % 2 == 0 ? "failed" : "unread").append('\n');
                at = lba + 1;
            }
            map.append(at).append(',').append(file.size() / 512 - at).append(",read\n");
        }
        return Files.writeString(folder.resolve("map.csv"), map);
    }

    @ParameterizedTest
    @CsvSource({"12,4096,2,1", "16,16384,4,2", "32,40960,1,3"})
    void photosAreCompleteDamagedOrLost(int bits, int kib, int perCluster, long seed) throws IOException {
        Random random = new Random(seed);
        Path image = card(bits, kib, perCluster, random);
        TreeSet<Long> lost = new TreeSet<>();
        int which = 0;
        for (List<Long> photo : sectors.values()) {
            switch (which++ % 4) {
                case 0 -> lost.addAll(photo);
                case 1 -> lost.add(photo.get(random.nextInt(photo.size())));
                case 2 -> lost.addAll(photo.subList(photo.size() / 2, photo.size()));
                default -> { }
            }
        }
        Path map = take(image, lost);
        Cli said = Cli.run("files", image, "--read-map", map, "--volume", "1", "--json");
        assertEquals(0, said.status(), said.err());
        Map<String, JsonNode> listed = new TreeMap<>();
        said.jsonLines().forEach(line -> listed.put(line.get("path").asText(), line));
        int[] seen = new int[3];
        for (Map.Entry<String, Integer> photo : sizes.entrySet()) {
            JsonNode line = listed.get("DCIM/100CARD/" + photo.getKey());
            assertTrue(line != null, photo.getKey() + " is not listed");
            long read = read(sectors.get(photo.getKey()), photo.getValue(), lost);
            String state = read == photo.getValue() ? "complete" : read == 0 ? "lost" : "damaged";
            seen[read == photo.getValue() ? 0 : read == 0 ? 1 : 2]++;
            assertEquals(state, line.get("state").asText(), photo.getKey());
            assertEquals(read, line.get("readBytes").asLong(), photo.getKey());
            assertEquals((long) photo.getValue(), line.get("bytes").asLong(), photo.getKey());
        }
        assertTrue(seen[0] > 0 && seen[1] > 0 && seen[2] > 0, "complete " + seen[0] + ", lost " + seen[1] + ", damaged " + seen[2]);
    }

    /** Bytes of a photo in sectors that are still there. */
    private static long read(List<Long> photo, long bytes, TreeSet<Long> lost) {
        long read = 0;
        for (int i = 0; i < photo.size() && i * 512L < bytes; i++) {
            read += lost.contains(photo.get(i)) ? 0 : Math.min(512, bytes - i * 512L);
        }
        return read;
    }

    /** FAT 1 and FAT 2 each lose other sectors: together they still tell every chain, and no photo suffers. */
    @ParameterizedTest
    @CsvSource({"12,4096,2,4", "16,16384,4,5"})
    void oneFatServesForTheOther(int bits, int kib, int perCluster, long seed) throws IOException {
        Path image = card(bits, kib, perCluster, new Random(seed));
        String told = Tool.run("fsck.fat", "-n", "-v", image.toString()).ok();
        long first = number(told, "First FAT starts at byte \\d+ \\(sector (\\d+)\\)");
        long size = number(told, "bytes per FAT \\(= (\\d+) sectors\\)");
        TreeSet<Long> lost = new TreeSet<>();
        for (long i = 0; i < size; i++) {
            lost.add(i % 2 == 0 ? first + i : first + size + i);
        }
        Path map = take(image, lost);
        Cli said = Cli.run("files", image, "--read-map", map, "--volume", "1", "--json");
        said.jsonLines().stream().filter(line -> line.get("path").asText().endsWith(".jpg"))
                .forEach(line -> assertEquals("complete", line.get("state").asText(), line.toString()));
        assertEquals(PHOTOS, said.jsonLines().stream().filter(line -> line.get("path").asText().endsWith(".jpg")).count(), said.out());
    }
}
