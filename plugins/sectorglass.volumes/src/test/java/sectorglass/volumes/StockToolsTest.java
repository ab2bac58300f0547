package sectorglass.volumes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;
import sectorglass.testvolumes.Specs;

/** Every number that the stock tools show of a header is the one that we show; what they call damaged, we call damaged. */
class StockToolsTest {

    /** Values by the label of the field, of the first structure of a format at or behind a byte. */
    private static Map<String, Object> fields(DiskFile image, String format, long from) {
        Volume volume = Judged.open(image).orElseThrow();
        Structure structure = volume.structures().stream().filter(s -> s.format().equals(format) && s.range().start() >= from).findFirst().orElseThrow();
        Map<String, Object> found = new HashMap<>();
        collect(Specs.decode(image, structure), found);
        return found;
    }

    private static void collect(FieldNode node, Map<String, Object> found) {
        if (node.children().isEmpty()) {
            found.putIfAbsent(node.label(), node.raw() instanceof Long ? node.raw() : node.value());
        }
        node.children().forEach(child -> collect(child, found));
    }

    private static int compare(String text, Pattern line, String prefix, Map<String, String> renamed, Map<String, Object> found) {
        int compared = 0;
        Matcher lines = line.matcher(text);
        while (lines.find()) {
            Object own = found.get(renamed.getOrDefault(lines.group(1), prefix + lines.group(1)));
            if (own instanceof Long number) {
                assertEquals(Long.decode(lines.group(2)), number, lines.group(1));
                compared++;
            }
        }
        return compared;
    }

    @ParameterizedTest
    @CsvSource({"xfs, xfs", "btrfs, btrfs", "f2fs, f2fs", "swap, swap", "luks1, crypto_LUKS", "luks2, crypto_LUKS", "iso9660, iso9660", "udf, udf",
        "md-1.0, linux_raid_member", "md-1.1, linux_raid_member", "md-1.2, linux_raid_member", "md-0.90, linux_raid_member"})
    void kindLabelAndIdentityAreThoseOfBlkid(String made, String type) {
        String text = Tool.run("blkid", "-p", "-o", "export", MadeVolumes.file(made).toString()).ok();
        assertEquals(type, value(text, "TYPE"));
        try (DiskFile image = DiskFile.of(MadeVolumes.file(made))) {
            VolumeInfo info = Judged.open(image).orElseThrow().info();
            assertEquals(value(text, "LABEL") == null ? "" : value(text, "LABEL").replace("\\", ""), info.label() == null ? "" : info.label());
            if (!type.equals("iso9660") && !type.equals("udf")) {
                assertEquals(value(text, "UUID"), info.uuid());
            }
        }
    }

    private static String value(String text, String key) {
        return text.lines().filter(l -> l.startsWith(key + "=")).map(l -> l.substring(key.length() + 1)).findFirst().orElse(null);
    }

    @Test
    void xfsHeadersAreThoseOfXfsDb() {
        String file = MadeVolumes.file("xfs").toString();
        Pattern line = Pattern.compile("^(\\w+) = (0x[0-9a-f]+|\\d+)", Pattern.MULTILINE);
        try (DiskFile image = DiskFile.of(MadeVolumes.file("xfs"))) {
            for (int group = 0; group < 4; group++) {
                long start = group * 20480L * 4096;
                String sb = Tool.run("xfs_db", "-r", "-c", "sb " + group, "-c", "p", file).ok();
                // the checksum is printed as a number of the other byte order
                int compared = compare(sb.replaceAll("(?m)^crc = .*$", ""), line, "sb_", Map.of(), fields(image, "xfs_superblock", start));
                assertTrue(compared > 40, compared + " fields");
                String agf = Tool.run("xfs_db", "-r", "-c", "agf " + group, "-c", "p", file).ok();
                compared = compare(agf.replaceAll("(?m)^crc = .*$", ""), line, "agf_", Map.of("bnoroot", "agf_bno_root", "cntroot", "agf_cnt_root", "bnolevel",
                        "agf_bno_level", "cntlevel", "agf_cnt_level", "refcntroot", "agf_refcount_root"), fields(image, "xfs_agf", start));
                assertTrue(compared > 13, compared + " fields");
                String agi = Tool.run("xfs_db", "-r", "-c", "agi " + group, "-c", "p", file).ok();
                compared = compare(agi.replaceAll("(?m)^crc = .*$", ""), line, "agi_", Map.of(), fields(image, "xfs_agi", start));
                assertTrue(compared > 9, compared + " fields");
            }
            String sb = Tool.run("xfs_db", "-r", "-c", "sb 0", "-c", "p dblocks fdblocks", file).ok();
            Matcher numbers = Pattern.compile("dblocks = (\\d+)\\s+fdblocks = (\\d+)").matcher(sb);
            assertTrue(numbers.find(), sb);
            assertEquals((Long.parseLong(numbers.group(1)) - Long.parseLong(numbers.group(2))) * 4096,
                    Judged.open(image).orElseThrow().info().usedBytes());
        }
    }

    @Test
    void whatXfsRepairCallsDamagedIsCalledDamaged() throws java.io.IOException {
        java.nio.file.Path copy = java.nio.file.Files.createTempFile("xfs", ".img");
        Tool.run("cp", "--sparse=always", MadeVolumes.file("xfs").toString(), copy.toString()).ok();
        assertEquals(0, Tool.run("xfs_repair", "-n", copy.toString()).status());
        for (long at : new long[] {100, 536, 1100}) {
            try (var file = new java.io.RandomAccessFile(copy.toFile(), "rw")) {
                file.seek(at);
                int was = file.read();
                file.seek(at);
                file.write(was ^ 0x40);
                assertTrue(Tool.run("xfs_repair", "-n", copy.toString()).status() != 0, "byte " + at);
                try (DiskFile image = DiskFile.of(copy)) {
                    assertTrue(!Judged.full(image).failed().isEmpty(), "byte " + at);
                }
                file.seek(at);
                file.write(was);
            }
        }
        java.nio.file.Files.delete(copy);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1})
    void btrfsCopiesAreThoseOfDumpSuper(int copy) {
        String text = Tool.run("btrfs", "inspect-internal", "dump-super", "-s", String.valueOf(copy), MadeVolumes.file("btrfs").toString()).ok();
        try (DiskFile image = DiskFile.of(MadeVolumes.file("btrfs"))) {
            Map<String, Object> found = fields(image, "btrfs_superblock", copy == 0 ? 0x10000 : 0x4000000);
            int compared = compare(text.replaceAll("(?m)^csum\\s.*$", ""), Pattern.compile("^(\\w+)\\s+(0x[0-9a-f]+|\\d+)", Pattern.MULTILINE), "",
                    Map.of("sys_array_size", "sys_chunk_array_size", "root_dir", "root_dir_objectid"), found);
            assertTrue(compared > 20, compared + " fields");
            Matcher used = Pattern.compile("bytes_used\\s+(\\d+)").matcher(text);
            assertTrue(used.find());
            assertEquals(Long.parseLong(used.group(1)), Judged.open(image).orElseThrow().info().usedBytes());
        }
    }

    @Test
    void luksHeadersAreThoseOfLuksDump() {
        String one = Tool.run("cryptsetup", "luksDump", MadeVolumes.file("luks1").toString()).ok();
        try (DiskFile image = DiskFile.of(MadeVolumes.file("luks1"))) {
            Map<String, Object> found = fields(image, "luks1_header", 0);
            assertEquals(number(one, "Payload offset:\\s+(\\d+)"), found.get("payload-offset"));
            assertEquals(number(one, "MK bits:\\s+(\\d+)") / 8, (long) found.get("key-bytes"));
            assertEquals(number(one, "MK iterations:\\s+(\\d+)"), found.get("mk-digest-iter"));
            assertEquals(number(one, "Key material offset:\\s+(\\d+)"), found.get("key-material-offset"));
            assertEquals(number(one, "AF stripes:\\s+(\\d+)"), found.get("stripes"));
        }
        String two = Tool.run("cryptsetup", "luksDump", MadeVolumes.file("luks2").toString()).ok();
        try (DiskFile image = DiskFile.of(MadeVolumes.file("luks2"))) {
            for (long from : new long[] {0, 0x4000}) {
                Map<String, Object> found = fields(image, "luks2_header", from);
                assertEquals(number(two, "Epoch:\\s+(\\d+)"), found.get("seqid"));
                assertEquals(number(two, "Metadata area:\\s+(\\d+)"), found.get("hdr_size"));
                assertEquals(from, found.get("hdr_offset"));
            }
        }
    }

    private static long number(String text, String pattern) {
        Matcher matcher = Pattern.compile(pattern).matcher(text);
        assertTrue(matcher.find(), pattern + " in " + text);
        return Long.parseLong(matcher.group(1));
    }

    @ParameterizedTest
    @ValueSource(strings = {"md-1.0", "md-1.1", "md-1.2", "md-0.90"})
    void setsAreThoseOfMdadm(String made) {
        String text = Tool.run("mdadm", "--examine", MadeVolumes.file(made).toString()).ok();
        try (DiskFile image = DiskFile.of(MadeVolumes.file(made))) {
            Volume volume = Judged.open(image).orElseThrow();
            MdMember member = (MdMember) volume.capability(sectorglass.disk.SetMember.class).orElseThrow();
            assertEquals(number(text, "Raid Devices : (\\d+)"), member.md().disks());
            assertEquals(number(text, "Raid Level : raid(\\d+)"), member.md().level());
            assertTrue(text.contains("Events : " + (made.equals("md-0.90") ? "" : member.events())), text);
            assertTrue(text.contains(String.format("%08x", member.md().storedSum()) + " - correct")
                    || text.contains(Long.toHexString(member.md().storedSum()) + " - correct"), text);
            if (!made.equals("md-0.90")) {
                assertEquals((text.contains("Data Offset") ? number(text, "Data Offset : (\\d+) sectors") : 0) * 512, member.dataStart());
                assertTrue(text.contains("Array UUID : " + member.md().uuid().replace("-", "").replaceAll("(.{8})(?=.)", "$1:")), text);
                assertTrue(text.contains("Device Role : Active device " + member.place()), text);
                assertEquals(number(text, "Avail Dev Size : (\\d+)"), member.dataBytes() / 512);
            } else {
                assertTrue(text.contains("UUID : 11111111:22224333:84445555:55555555"), text);
                assertEquals("11111111-2222-4333-8444-555555555555", member.md().uuid());
            }
            assertNotNull(member.data(512));
        }
    }

    @Test
    void flawsOfF2fsAndSwapAreThoseOfTheirTools() {
        assertEquals(0, Tool.run("fsck.f2fs", "--dry-run", MadeVolumes.file("f2fs").toString()).status());
        String swap = Tool.run("swaplabel", MadeVolumes.file("swap").toString()).ok();
        assertTrue(swap.contains("LABEL: TESTSWAP") && swap.contains("UUID:  " + MadeVolumes.UUID), swap);
        String iso = Tool.run("isoinfo", "-d", "-i", MadeVolumes.file("iso9660").toString()).ok();
        try (DiskFile image = DiskFile.of(MadeVolumes.file("iso9660"))) {
            VolumeInfo info = Judged.open(image).orElseThrow().info();
            assertEquals(number(iso, "Volume size is: (\\d+)") * 2048, info.bytes());
            assertEquals(List.of("TESTVOL"), List.of(info.label()));
        }
        String udf = Tool.run("udfinfo", MadeVolumes.file("udf").toString()).ok();
        try (DiskFile image = DiskFile.of(MadeVolumes.file("udf"))) {
            VolumeInfo info = Judged.open(image).orElseThrow().info();
            assertEquals(value(udf, "label"), info.label());
        }
    }
}
