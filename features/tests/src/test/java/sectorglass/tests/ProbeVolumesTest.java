package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.testkit.Corpus;

/** Kind, label, serial or UUID of real volumes, as the probing library of util-linux expects them (its test suite, images-fs). */
class ProbeVolumesTest {
    private static final Map<String, String> KINDS = Map.ofEntries(Map.entry("linux_raid_member", "md"), Map.entry("LVM2_member", "lvm2"),
            Map.entry("BitLocker", "bitlocker"), Map.entry("cs_fvault2", "filevault"));
    private static final Set<String> KNOWN = Set.of("fat12", "fat16", "fat32", "exfat", "ntfs", "ext2", "ext3", "ext4", "hfs", "hfsplus",
            "apfs", "xfs", "btrfs", "f2fs", "swap", "iso9660", "udf", "lvm2", "md", "luks1", "luks2", "bitlocker", "filevault");

    @TempDir
    static Path folder;

    @TestFactory
    Stream<DynamicTest> everyVolumeIsKnownAsExpected() {
        return Corpus.files("probe-volumes", ".img.xz").stream().map(p -> DynamicTest.dynamicTest(p.getFileName().toString(), () -> hold(p)));
    }

    private static void hold(Path packed) throws IOException {
        Map<String, String> expected = expected(packed.resolveSibling(packed.getFileName().toString().replace(".img.xz", ".expected")));
        Path image = Corpus.unpack(packed, folder);
        try {
            Cli said = Cli.run("layout", image, "--json");
            assertEquals(0, said.status(), said.err());
            JsonNode volume = volume(said.json());
            String kind = kind(expected);
            if (kind == null || !KNOWN.contains(kind)) {
                assertTrue(volume.isNull() || kind == null, "claimed as " + volume);
                return;
            }
            assertEquals(kind, volume.path("kind").asText("none"), said.out());
            compare(expected.get("ID_FS_LABEL_ENC"), volume.path("label").asText(""), "label");
            if (expected.containsKey("ID_FS_UUID_ENC")) {
                String wanted = expected.get("ID_FS_UUID_ENC").toLowerCase(Locale.ROOT);
                Set<String> told = Set.of(volume.path("serial").asText("").toLowerCase(Locale.ROOT) + "",
                        "u" + volume.path("uuid").asText("").toLowerCase(Locale.ROOT));
                assertTrue(told.contains(wanted) || told.contains("u" + wanted), "serial or UUID: expected " + wanted + " in " + volume);
            }
            Cli verified = Cli.run("verify", image, "--json");
            assertTrue(Set.of(0, 1, 5).contains(verified.status()), verified.err());
        } finally {
            Files.deleteIfExists(image);
        }
    }

    /** The volume of the image, or of its only partition that has one. */
    private static JsonNode volume(JsonNode layout) {
        if (!layout.get("volume").isNull()) {
            return layout.get("volume");
        }
        for (JsonNode partition : layout.get("partitions")) {
            if (!partition.get("volume").isNull()) {
                return partition.get("volume");
            }
        }
        return layout.get("volume");
    }

    private static String kind(Map<String, String> expected) {
        String type = expected.get("ID_FS_TYPE");
        String version = expected.getOrDefault("ID_FS_VERSION", "");
        if (type == null) {
            return null;
        }
        if (type.equals("vfat")) {
            return version.toLowerCase(Locale.ROOT);
        }
        if (type.equals("crypto_LUKS")) {
            return "luks" + version;
        }
        return KINDS.getOrDefault(type, type);
    }

    private static void compare(String expected, String told, String what) {
        assertEquals(expected == null ? "" : expected.strip(), told.strip(), what);
    }

    private static Map<String, String> expected(Path file) throws IOException {
        Map<String, String> values = new HashMap<>();
        for (String line : Files.readAllLines(file)) {
            int equals = line.indexOf('=');
            if (equals > 0) {
                values.put(line.substring(0, equals), plain(line.substring(equals + 1)));
            }
        }
        return values;
    }

    /** Undoes the escapes of the form backslash, x, two hex digits; bytes are UTF-8. */
    private static String plain(String escaped) {
        byte[] bytes = escaped.getBytes(StandardCharsets.UTF_8);
        ByteArrayOutputStream plain = new ByteArrayOutputStream();
        for (int i = 0; i < bytes.length; i++) {
            if (bytes[i] == '\\' && i + 3 < bytes.length && bytes[i + 1] == 'x') {
                plain.write(Integer.parseInt(new String(bytes, i + 2, 2, StandardCharsets.US_ASCII), 16));
                i += 3;
            } else {
                plain.write(bytes[i]);
            }
        }
        String text = plain.toString(StandardCharsets.UTF_8);
        // a FAT label is in the code page of the computer that wrote it; the image that holds such a one is named after CP850
        return text.contains("\uFFFD") ? plain.toString(java.nio.charset.Charset.forName("IBM850")) : text;
    }
}
