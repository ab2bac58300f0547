package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.testkit.Tool;

/**
 * Sets of disks through the command line: what a mirror, stripes and a volume group hold is listed, judged, planned and comes out as it was
 * put in. What the disks say is judged by mdadm --examine and pvck.
 */
class SetsTest {
    private static final List<String> DISKS = List.of("111111-1111-1111-1111-1111-1111-111111", "222222-2222-2222-2222-2222-2222-222222");
    private static final long PHYSICAL = 65L * SetDisks.MIB;

    @TempDir
    static Path folder;
    private static Path source;
    private static byte[] ext4;
    private static final Map<String, byte[]> FILES = new HashMap<>();

    @BeforeAll
    static void files() throws IOException {
        Tool.require("mkfs.ext4", "mdadm", "pvck");
        source = Files.createDirectories(folder.resolve("source/deep/er"));
        Random random = new Random(7);
        for (int i = 0; i < 12; i++) {
            byte[] bytes = new byte[50_000 + 90_000 * i];
            random.nextBytes(bytes);
            String path = (i % 3 == 0 ? "" : i % 3 == 1 ? "deep/" : "deep/er/") + "file-" + i + ".bin";
            FILES.put(path, bytes);
            Files.write(folder.resolve("source").resolve(path), bytes);
        }
        ext4 = SetDisks.ext4(folder, folder.resolve("source"));
    }

    /** A member of a store's mirror that holds a volume group with one logical volume of 24 extents from extent 3 on. */
    private static Path mirrored(String name, int place, long events) throws IOException {
        Path member = SetDisks.sparse(folder.resolve(name), SetDisks.DATA + PHYSICAL);
        SetDisks.md(member, 1, 0, 0, 2, place, PHYSICAL, events);
        SetDisks.physical(member, SetDisks.DATA, DISKS.get(0), PHYSICAL, SetDisks.text(3, DISKS.subList(0, 1), SetDisks.logical("data", "0 24 striped \"pv0\", 3")));
        SetDisks.put(member, SetDisks.DATA + 4L * SetDisks.MIB, ext4);
        assertTrue(Tool.run("mdadm", "--examine", member.toString()).ok().contains("- correct"));
        return member;
    }

    @Test
    void aMirrorWithALogicalVolumeIsReadFromBothDisks() throws IOException {
        Path a = mirrored("mirror-a.img", 0, 9);
        Path b = mirrored("mirror-b.img", 1, 9);
        // a third of the logical volume was not read from the first disk; a filler stands there
        long first = (SetDisks.DATA + 6L * SetDisks.MIB) / 512;
        long count = 8L * SetDisks.MIB / 512;
        byte[] filler = new byte[(int) count * 512];
        Arrays.fill(filler, (byte) 0xAA);
        SetDisks.put(a, first * 512, filler);
        long sectors = Files.size(a) / 512;
        Path map = Files.writeString(folder.resolve("a.csv"), "first_lba,sectors,state\n0," + first + ",read\n" + first + "," + count + ",unread\n"
                + (first + count) + "," + (sectors - first - count) + ",read\n");

        JsonNode layout = Cli.run("layout", a, "--with", b, "--read-map", map, "--json").json();
        assertEquals("md", layout.get("volume").get("kind").asText());
        assertEquals(List.of("lvm2", "ext4"), kinds(layout));
        JsonNode data = layout.get("partitions").get(1);
        assertEquals(3, data.get("number").asInt());
        assertEquals("shop/data", data.get("name").asText());
        assertEquals((SetDisks.DATA + 4L * SetDisks.MIB) / 512, data.get("firstLba").asLong());
        assertEquals("STORE", data.get("volume").get("label").asText());

        assertComplete(a, 3, "--with", b, "--read-map", map);
        Cli verified = Cli.run("verify", a, "--with", b, "--read-map", map, "--full", "--json");
        // what was not read from one disk cannot be compared with the other; everything else holds
        assertEquals(5, verified.status(), verified.out());
        assertEquals(List.of("md.copies-agree"), verified.checks());
        assertEquals(first, verified.json().get("findings").get(0).get("missing").get(0).get(0).asLong());

        // alone, the first disk tells the truth about what it lacks
        Cli alone = Cli.run("files", a, "--volume", 3, "--read-map", map, "--json");
        int damaged = 0;
        for (JsonNode file : alone.jsonLines()) {
            byte[] wanted = FILES.get(file.get("path").asText());
            if (wanted != null) {
                boolean whole = !touches(file.get("extents"), first, count);
                assertEquals(whole ? "complete" : file.get("readBytes").asLong() == 0 ? "lost" : "damaged", file.get("state").asText(), file.toString());
                damaged += whole ? 0 : 1;
            }
        }
        assertTrue(damaged > 0);
        JsonNode plan = Cli.run("plan", a, "--read-map", map, "--json").json();
        long planned = 0;
        for (JsonNode stage : plan.get("stages")) {
            for (JsonNode range : stage.get("ranges")) {
                assertTrue(range.get(0).asLong() >= first && range.get(0).asLong() + range.get(1).asLong() <= first + count, stage.toString());
                planned += range.get(1).asLong();
            }
        }
        assertTrue(planned > 0 && planned < count, "what ext4 calls free is not planned: " + planned + " of " + count);
    }

    @Test
    void aDiskThatWasLeftBehindIsNotUsed() throws IOException {
        Path a = mirrored("current.img", 0, 120);
        Path b = mirrored("stale.img", 1, 90);
        SetDisks.put(b, SetDisks.DATA + 4L * SetDisks.MIB, new byte[4 * SetDisks.MIB]);
        assertComplete(a, 3, "--with", b);
        JsonNode stale = Cli.run("layout", b, "--with", a, "--json").json();
        assertTrue(stale.get("firstLook").get("remarks").toString().contains("was left behind"), stale.toString());
    }

    @Test
    void aVolumeInTwoPiecesIsPutTogether() throws IOException {
        Path disk = SetDisks.sparse(folder.resolve("pieces.img"), PHYSICAL);
        SetDisks.physical(disk, 0, DISKS.get(0), PHYSICAL, SetDisks.text(5, DISKS.subList(0, 1),
                SetDisks.logical("data", "0 10 striped \"pv0\", 40", "10 14 striped \"pv0\", 2")));
        assertTrue(Tool.run("pvck", "--dump", "headers", disk.toString()).ok().contains("shop"));
        SetDisks.put(disk, 41L * SetDisks.MIB, Arrays.copyOf(ext4, 10 * SetDisks.MIB));
        SetDisks.put(disk, 3L * SetDisks.MIB, Arrays.copyOfRange(ext4, 10 * SetDisks.MIB, 24 * SetDisks.MIB));
        JsonNode layout = Cli.run("layout", disk, "--json").json();
        assertEquals(List.of("ext4"), kinds(layout));
        assertTrue(layout.get("partitions").get(0).get("firstLba").isNull());
        assertComplete(disk, 2);
        assertEquals(0, Cli.run("verify", disk, "--full").status());
        // a byte of the superblock, which stands at extent 40 of the disk, is found where it stands
        SetDisks.put(disk, 41L * SetDisks.MIB + 1024 + 0x78, new byte[] {'X'});
        JsonNode findings = Cli.run("verify", disk, "--json").json().get("findings");
        boolean found = false;
        for (JsonNode finding : findings) {
            found |= finding.get("check").asText().startsWith("ext.sb.") && finding.get("firstByte").asLong() / SetDisks.MIB == 41
                    && finding.get("volume").asInt() == 2;
        }
        assertTrue(found, findings.toString());
    }

    @Test
    void theSecondDiskOfAGroupIsMissedByName() throws IOException {
        String text = SetDisks.text(5, DISKS, SetDisks.logical("data", "0 4 striped \"pv0\", 0", "4 20 striped \"pv1\", 0"));
        Path a = SetDisks.sparse(folder.resolve("group-a.img"), PHYSICAL);
        Path b = SetDisks.sparse(folder.resolve("group-b.img"), PHYSICAL);
        SetDisks.physical(a, 0, DISKS.get(0), PHYSICAL, text);
        SetDisks.physical(b, 0, DISKS.get(1), PHYSICAL, text);
        SetDisks.put(a, SetDisks.MIB, Arrays.copyOf(ext4, 4 * SetDisks.MIB));
        SetDisks.put(b, SetDisks.MIB, Arrays.copyOfRange(ext4, 4 * SetDisks.MIB, 24 * SetDisks.MIB));
        assertComplete(a, 2, "--with", b);
        assertComplete(b, 2, "--with", a);
        JsonNode alone = Cli.run("layout", a, "--json").json();
        assertTrue(alone.get("firstLook").get("remarks").toString().contains("pv1 (" + DISKS.get(1) + ")"), alone.toString());
        Map<String, Integer> states = new HashMap<>();
        for (JsonNode file : Cli.run("files", a, "--volume", 2, "--json").jsonLines()) {
            if (FILES.containsKey(file.get("path").asText())) {
                states.merge(file.get("state").asText(), 1, Integer::sum);
            }
        }
        assertEquals(FILES.size(), states.getOrDefault("complete", 0) + states.getOrDefault("damaged", 0) + states.getOrDefault("lost", 0));
        assertTrue(states.getOrDefault("complete", 0) < FILES.size(), states.toString());
    }

    @Test
    void anOlderTextServesWhereTheCurrentOneIsLost() throws IOException {
        Path disk = SetDisks.sparse(folder.resolve("older.img"), PHYSICAL);
        String logical = SetDisks.logical("data", "0 24 striped \"pv0\", 3");
        SetDisks.physical(disk, 0, DISKS.get(0), PHYSICAL, SetDisks.text(1, DISKS.subList(0, 1)), SetDisks.text(2, DISKS.subList(0, 1), logical),
                SetDisks.text(3, DISKS.subList(0, 1), logical));
        SetDisks.put(disk, 4L * SetDisks.MIB, ext4);
        SetDisks.put(disk, 4096, new byte[512]);
        JsonNode layout = Cli.run("layout", disk, "--json").json();
        assertEquals(List.of("ext4"), kinds(layout));
        assertTrue(layout.get("firstLook").get("remarks").toString().contains("change number 3"), layout.toString());
        assertComplete(disk, 2);
    }

    @Test
    void stripesAreReadAsOneImage() throws IOException {
        int chunk = 64 << 10;
        List<byte[]> held = SetDisks.spread(ext4, 3, chunk, false);
        List<Path> disks = members("stripe", 0, 0, chunk, held);
        assertComplete(disks.get(1), 2, "--with", disks.get(0), "--with", disks.get(2));
        Path job = Files.writeString(folder.resolve("stripe.json"), "{\"version\":1,\"furtherDisks\":[{\"file\":\"stripe0.disk\"},{\"file\":\"stripe2.disk\"}]}");
        assertComplete(disks.get(1), 2, "--job", job);
        Files.writeString(job, "{\"version\":1,\"furtherDisks\":[{\"file\":\"nowhere.disk\"}]}");
        Cli gone = Cli.run("layout", disks.get(1), "--job", job);
        assertEquals(3, gone.status());
        assertTrue(gone.err().contains("nowhere.disk"), gone.err());
        JsonNode missing = Cli.run("layout", disks.get(0), "--json").json();
        assertTrue(missing.get("firstLook").get("remarks").toString().contains("Missing: disk 1, disk 2"), missing.toString());
    }

    @Test
    void aDiskOfALevelFiveSetIsReplacedByTheOthers() throws IOException {
        int chunk = 64 << 10;
        List<byte[]> held = SetDisks.spread(ext4, 4, chunk, true);
        List<Path> disks = members("parity", 5, 2, chunk, held);
        Object[] all = {"verify", disks.get(0), "--with", disks.get(1), "--with", disks.get(2), "--with", disks.get(3), "--full", "--json"};
        assertEquals(List.of(), Cli.run(all).checks());
        byte was = held.get(2)[700_000];
        SetDisks.put(disks.get(2), SetDisks.DATA + 700_000, new byte[] {(byte) (was ^ 1)});
        JsonNode differs = Cli.run(all).json().get("findings").get(0);
        assertEquals("md.copies-agree", differs.get("check").asText());
        assertEquals(SetDisks.DATA + 700_000 / 512 * 512, differs.get("firstByte").asLong());
        SetDisks.put(disks.get(2), SetDisks.DATA + 700_000, new byte[] {was});
        for (int gone = 0; gone < 4; gone++) {
            List<Path> rest = new ArrayList<>(disks);
            rest.remove(gone);
            assertComplete(rest.get(0), 2, "--with", rest.get(1), "--with", rest.get(2));
        }
        Cli two = Cli.run("files", disks.get(0), "--volume", 2, "--with", disks.get(1), "--json");
        for (JsonNode file : two.status() == 0 ? two.jsonLines() : List.<JsonNode>of()) {
            assertTrue(!FILES.containsKey(file.get("path").asText()) || !file.get("state").asText().equals("complete")
                    || file.get("bytes").asLong() <= chunk, file.toString());
        }
    }

    @Test
    void twoDisksOfALevelSixSetAreReplacedByTheOthers() throws IOException {
        int chunk = 64 << 10;
        List<byte[]> held = SetDisks.spreadTwice(ext4, 5, chunk);
        List<Path> disks = members("double", 6, 2, chunk, held);
        Object[] all = {"verify", disks.get(0), "--with", disks.get(1), "--with", disks.get(2), "--with", disks.get(3), "--with", disks.get(4), "--full",
            "--json"};
        assertEquals(List.of(), Cli.run(all).checks());
        for (int[] gone : new int[][] {{0, 1}, {1, 4}, {2, 3}, {3, 4}, {0, 4}}) {
            List<Path> rest = new ArrayList<>(disks);
            rest.remove(gone[1]);
            rest.remove(gone[0]);
            assertComplete(rest.get(0), 2, "--with", rest.get(1), "--with", rest.get(2));
        }
        for (int wrong = 0; wrong < 5; wrong++) {
            int at = 700_000;
            SetDisks.put(disks.get(wrong), SetDisks.DATA + at, new byte[] {(byte) (held.get(wrong)[at] ^ 0x5A)});
            JsonNode differs = Cli.run(all).json().get("findings").get(0);
            assertEquals("md.copies-agree", differs.get("check").asText());
            assertTrue(differs.get("what").asText().contains(wrong + " (double" + wrong + ".disk): 1"), differs.toString());
            SetDisks.put(disks.get(wrong), SetDisks.DATA + at, new byte[] {held.get(wrong)[at]});
        }
        Cli three = Cli.run("layout", disks.get(0), "--with", disks.get(1), "--json");
        assertTrue(three.json().get("firstLook").get("remarks").toString().contains("Missing: disk 2, disk 3, disk 4"), three.out());
    }

    @Test
    void ofThreeCopiesTheOddOneIsNamed() throws IOException {
        byte[] data = Arrays.copyOf(ext4, ext4.length);
        List<Path> disks = members("triple", 1, 0, 0, List.of(data, data, data));
        Object[] all = {"verify", disks.get(0), "--with", disks.get(1), "--with", disks.get(2), "--full", "--json"};
        assertEquals(List.of(), Cli.run(all).checks());
        SetDisks.put(disks.get(0), SetDisks.DATA + 20 * SetDisks.MIB, new byte[] {0x55, 0x66});
        JsonNode differs = Cli.run(all).json().get("findings").get(0);
        assertEquals("md.copies-agree", differs.get("check").asText());
        assertTrue(differs.get("what").asText().endsWith("0 (triple0.disk): 1."), differs.toString());
    }

    @Test
    void theFreshestOldDiskServesWhereTheSetNeedsIt() throws IOException {
        int chunk = 64 << 10;
        List<Path> disks = members("tired", 5, 2, chunk, SetDisks.spread(ext4, 4, chunk, true));
        SetDisks.change(disks.get(1), 200, new byte[] {40, 0});
        SetDisks.change(disks.get(2), 200, new byte[] {90, 0});
        SetDisks.change(disks.get(0), 200, new byte[] {99, 0});
        SetDisks.change(disks.get(3), 200, new byte[] {100, 0});
        SetDisks.put(disks.get(1), SetDisks.DATA, new byte[8 * SetDisks.MIB]);
        Object[] rest = {"--with", disks.get(0), "--with", disks.get(1), "--with", disks.get(2)};
        assertComplete(disks.get(3), 2, rest);
        Object[] layout = {"layout", disks.get(3), "--with", disks.get(0), "--with", disks.get(1), "--with", disks.get(2), "--json"};
        String remarks = Cli.run(layout).json().get("firstLook").get("remarks").toString();
        assertTrue(remarks.contains("(tired2.disk) that was left behind is used all the same"), remarks);
        assertTrue(remarks.contains("(tired1.disk) was left behind"), remarks);
        layout[0] = "verify";
        JsonNode finding = Cli.run(layout).json().get("findings").get(0);
        assertEquals("md.events-equal", finding.get("check").asText());
        assertEquals("40", finding.get("stored").asText());
        assertEquals("100", finding.get("computed").asText());
    }

    @Test
    void whatADiskDoesNotHoldYetComesFromTheOthers() throws IOException {
        int chunk = 64 << 10;
        List<byte[]> held = SetDisks.spread(ext4, 4, chunk, true);
        List<Path> disks = members("rebuilt", 5, 2, chunk, held);
        // disk 2 is being rebuilt and is at its second MiB; disk 0 has a sector that the set noted as bad, in its sixth MiB
        SetDisks.change(disks.get(2), 152, new byte[] {0, 8, 0, 0, 0, 0, 0, 0});
        SetDisks.change(disks.get(2), 8, new byte[] {2});
        SetDisks.put(disks.get(2), SetDisks.DATA + SetDisks.MIB, new byte[held.get(2).length - SetDisks.MIB]);
        long bad = (SetDisks.DATA + 512 * 1024) / 512;
        byte[] entry = new byte[512];
        Arrays.fill(entry, (byte) 0xFF);
        java.nio.ByteBuffer.wrap(entry).order(java.nio.ByteOrder.LITTLE_ENDIAN).putLong(0, bad << 10 | 16);
        SetDisks.put(disks.get(0), 4096 + 16 * 512, entry);
        SetDisks.change(disks.get(0), 184, new byte[] {0, 0, 1, 0, 16, 0, 0, 0});
        SetDisks.change(disks.get(0), 8, new byte[] {8});
        SetDisks.put(disks.get(0), bad * 512, new byte[16 * 512]);
        String listed = Tool.run("mdadm", "--examine-badblocks", disks.get(0).toString()).ok();
        assertTrue(listed.contains(bad + " for 16 sectors"), listed);
        assertTrue(Tool.run("mdadm", "--examine", disks.get(2).toString()).ok().contains("Recovery Offset : 2048 sectors"));
        Object[] rest = {"--with", disks.get(1), "--with", disks.get(2), "--with", disks.get(3)};
        assertComplete(disks.get(0), 2, rest);
        String remarks = Cli.run("layout", disks.get(0), "--with", disks.get(1), "--with", disks.get(2), "--with", disks.get(3), "--json").json()
                .get("firstLook").get("remarks").toString();
        assertTrue(remarks.contains("noted 16 bad sectors on a disk (rebuilt0.disk)") && remarks.contains("only the first 2048 sectors"), remarks);
    }

    @Test
    void twoDisksThatClaimOnePlaceAreSaid() throws IOException {
        int chunk = 64 << 10;
        List<Path> disks = members("twins", 5, 2, chunk, SetDisks.spread(ext4, 4, chunk, true));
        Path twin = Files.copy(disks.get(1), folder.resolve("twin.disk"));
        JsonNode findings = Cli.run("verify", disks.get(0), "--with", disks.get(1), "--with", twin, "--with", disks.get(2), "--json").json().get("findings");
        assertEquals("md.members-agree", findings.get(0).get("check").asText());
        assertTrue(findings.get(0).get("what").asText().contains("twin.disk") && findings.get(0).get("stored").asText().contains("disk 1"),
                findings.toString());
    }

    private static List<Path> members(String name, int level, int layout, int chunk, List<byte[]> held) throws IOException {
        List<Path> all = new ArrayList<>();
        for (int i = 0; i < held.size(); i++) {
            Path disk = SetDisks.sparse(folder.resolve(name + i + ".disk"), SetDisks.DATA + held.get(i).length);
            SetDisks.md(disk, level, layout, chunk / 512, held.size(), i, held.get(i).length, 5);
            SetDisks.put(disk, SetDisks.DATA, held.get(i));
            assertTrue(Tool.run("mdadm", "--examine", disk.toString()).ok().contains("- correct"));
            all.add(disk);
        }
        return all;
    }

    private static List<String> kinds(JsonNode layout) {
        List<String> kinds = new ArrayList<>();
        layout.get("partitions").forEach(p -> kinds.add(p.get("volume").get("kind").asText()));
        return kinds;
    }

    private static boolean touches(JsonNode extents, long first, long count) {
        for (JsonNode extent : extents) {
            if (extent.get(0).asLong() < first + count && first < extent.get(0).asLong() + extent.get(1).asLong()) {
                return true;
            }
        }
        return false;
    }

    /** Every file is listed as complete and comes out as it was put in. */
    private static void assertComplete(Path image, int volume, Object... more) throws IOException {
        List<Object> args = new ArrayList<>(List.of("files", image, "--volume", volume, "--json"));
        args.addAll(List.of(more));
        Cli listed = Cli.run(args.toArray());
        int seen = 0;
        for (JsonNode file : listed.jsonLines()) {
            if (FILES.containsKey(file.get("path").asText())) {
                assertEquals("complete", file.get("state").asText(), file.toString());
                seen++;
            }
        }
        assertEquals(FILES.size(), seen, listed.err());
        Path to = Files.createTempDirectory(folder, "out");
        args = new ArrayList<>(List.of("extract", image, "--volume", volume, "--to", to));
        args.addAll(List.of(more));
        args.addAll(FILES.keySet());
        Cli done = Cli.run(args.toArray());
        assertEquals(0, done.status(), done.out() + done.err());
        for (Map.Entry<String, byte[]> file : FILES.entrySet()) {
            assertArrayEquals(file.getValue(), Files.readAllBytes(to.resolve(file.getKey())), file.getKey());
        }
    }
}
