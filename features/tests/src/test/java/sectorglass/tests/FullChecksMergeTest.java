package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.make.Demo;
import sectorglass.testkit.Tool;

/**
 * Two copies that were both read and differ in structures which the quick checks do not look at: the copy whose own checksum or fix-ups hold is taken. Sources: fix-ups,
 * Linux kernel fs/ntfs3/ntfs.h (NTFS_RECORD_HEADER); SetChecksum, Microsoft exFAT specification, section 6.3.3; inodes, Linux kernel documentation, filesystems/ext4.
 */
class FullChecksMergeTest {
    @TempDir
    Path folder;
    private Path a;
    private Path b;
    private byte[] sound;

    @BeforeEach
    void twoCopies() throws Exception {
        Demo.Written demo = Demo.write(folder, Demo.Variant.GPT_SOUND);
        a = folder.resolve("a.img");
        b = demo.image();
        Files.copy(b, a);
        sound = Files.readAllBytes(b);
    }

    private static void put(Path file, long at, int... bytes) throws Exception {
        try (RandomAccessFile open = new RandomAccessFile(file.toFile(), "rw")) {
            open.seek(at);
            for (int one : bytes) {
                open.write(one);
            }
        }
    }

    /** The last file record of the table that is none of the first ones, which have a mirror. Its number stands at 2C (ntfs.h, MFT_REC.rec_num). */
    private int record() {
        int at = sound.length / 1024 * 1024 - 1024;
        while (!(sound[at] == 'F' && sound[at + 1] == 'I' && sound[at + 2] == 'L' && sound[at + 3] == 'E' && (sound[at + 0x2C] & 0xFF) > 30)) {
            at -= 1024;
        }
        return at;
    }

    private int last(String signature, int step) {
        byte[] sign = signature.getBytes(StandardCharsets.ISO_8859_1);
        for (int at = sound.length / step * step - step; at >= 0; at -= step) {
            if (Arrays.equals(sound, at, at + sign.length, sign, 0, sign.length)) {
                return at;
            }
        }
        throw new AssertionError(signature);
    }

    private JsonNode compared() {
        Cli run = Cli.run("compare", a, b, "--json");
        assertEquals(0, run.status(), run.err());
        return run.json();
    }

    /** The damaged copy is the first: nothing is taken because it stands first. */
    private void takenFromTheSoundCopy(long at) {
        JsonNode json = compared();
        assertEquals(1, json.get("counts").get("differ").asInt());
        assertEquals(1, json.get("disputes").get("decided").asInt(), json.get("ranges").toString());
        for (JsonNode range : json.get("ranges")) {
            if (range.get("firstLba").asLong() == at / 512) {
                assertEquals("2 passes the structure's full checks", range.get("copy").asInt() + " " + range.get("why").asText());
                return;
            }
        }
        throw new AssertionError(json.get("ranges").toString());
    }

    @Test
    void aTornFileRecordGivesWayToTheSoundOne() throws Exception {
        int record = record();
        put(a, record + 1022, sound[record + 1022] ^ 0x55);
        takenFromTheSoundCopy(record + 1022);
    }

    @Test
    void aTornIndexBlockGivesWayToTheSoundOne() throws Exception {
        int block = last("INDX", 512);
        put(a, block + 3 * 512 + 510, sound[block + 3 * 512 + 510] ^ 1);
        takenFromTheSoundCopy(block + 3 * 512);
    }

    /** The last entry set of the disk: a file entry (85), its stream extension (C0) and a name (C1). */
    @Test
    void anEntrySetWithAWrongChecksumGivesWayToTheSoundOne() throws Exception {
        int set = sound.length / 32 * 32 - 32;
        while (!((sound[set] & 0xFF) == 0x85 && (sound[set + 32] & 0xFF) == 0xC0 && (sound[set + 64] & 0xFF) == 0xC1)) {
            set -= 32;
        }
        put(a, set + 8, sound[set + 8] ^ 4);
        takenFromTheSoundCopy(set);
    }

    /** Bytes of a file and bytes behind the end of a record carry no check that tells which are right. */
    @Test
    void whatCannotBeJudgedIsToldAndStaysDisputed() throws Exception {
        int record = record();
        int used = sound[record + 0x18] & 0xFF | (sound[record + 0x19] & 0xFF) << 8; // bytes in use, offset 18 of the record
        assertTrue(used < 900, "room behind the record's end");
        put(a, record + 1000, sound[record + 1000] ^ 1);
        int picture = last("\u00FF\u00D8\u00FF", 512);
        put(a, picture + 20, sound[picture + 20] ^ 1);
        JsonNode json = compared();
        assertEquals(2, json.get("counts").get("differ").asInt());
        assertEquals(1, json.get("disputes").get("bothHold").asInt(), json.get("disputes").toString());
        assertEquals(1, json.get("disputes").get("unchecked").asInt(), json.get("disputes").toString());
        Cli text = Cli.run("compare", a, b);
        assertTrue(text.out().contains("1 hold in several copies, 1 carry no check"), text.out());
    }

    /** An ext4 volume with checksums, made by mke2fs: an inode of a file, and the first block of a folder. */
    @Test
    void anInodeWithAWrongChecksumGivesWayToTheSoundOne() throws Exception {
        Path content = Files.createDirectories(folder.resolve("content/inner"));
        for (int i = 0; i < 40; i++) {
            Files.writeString(content.resolve("file " + i), "text " + i);
        }
        b = folder.resolve("ext.img");
        Tool.require("mke2fs");
        Tool.run("mke2fs", "-q", "-t", "ext4", "-O", "metadata_csum,^64bit", "-d", content.getParent().toString(), b.toString(), "8m");
        sound = Files.readAllBytes(b);
        a = folder.resolve("ext-a.img");
        Files.copy(b, a);
        String where = Cli.run("explain", b, "--way", "inner/file 30", "--json").json().toString();
        java.util.regex.Matcher inode = java.util.regex.Pattern.compile("\"format\":\"ext_inode\",\"lba\":\\d+,\"firstByte\":(\\d+)").matcher(where);
        int at = -1;
        while (inode.find()) {
            at = Integer.parseInt(inode.group(1)); // the last one on the way is the file's
        }
        assertTrue(at > 0, where);
        put(a, at + 4, sound[at + 4] ^ 8); // i_size_lo
        takenFromTheSoundCopy(at);
        Path to = folder.resolve("merged.img");
        assertEquals(0, Cli.run("compare", a, b, "--merge-to", to, "--merge-anyway").status());
        assertArrayEquals(sound, Files.readAllBytes(to));
    }
}
