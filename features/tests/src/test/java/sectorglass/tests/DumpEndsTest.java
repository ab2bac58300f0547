package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.ReadState;
import sectorglass.testkit.Corpus;

/**
 * What stands around the disk in its file: foreign bytes behind the last sector, and files that begin in the middle. The backup GPT header stands in the
 * last sector and names it (UEFI 2.10, section 5.3.2); the copy of the NTFS boot sector follows the last sector that the volume counts (Linux kernel
 * fs/ntfs3/super.c, from memory).
 */
class DumpEndsTest {
    @TempDir
    Path folder;

    private byte[] image(String from, String name) throws Exception {
        Path packed = Corpus.files(from, "").stream().filter(p -> p.getFileName().toString().startsWith(name + ".img.")).findFirst().orElseThrow();
        return Files.readAllBytes(Corpus.unpack(packed, Files.createDirectories(folder.resolve("unpacked"))));
    }

    private Path withTail(byte[] disk, int bytes) throws Exception {
        byte[] more = Arrays.copyOf(disk, disk.length + bytes);
        for (int i = disk.length; i < more.length; i++) {
            more[i] = (byte) (i * 7 + 1);
        }
        return Files.write(folder.resolve("disk.img"), more);
    }

    @ParameterizedTest
    @CsvSource({"1,true", "511,true", "700,true", "512,false", "1024,false"})
    void whatFollowsTheBackupHeaderIsATrailer(int bytes, boolean proven) throws Exception {
        byte[] disk = image("probe-partitions", "gpt");
        Path file = withTail(disk, bytes);
        try (OpenImage image = Images.open(file)) {
            assertEquals(proven ? bytes : 0, image.dumpForm().form().trailer(), image.remarks().toString());
            assertEquals(proven ? disk.length : disk.length + bytes, image.bytes());
            assertTrue(image.remarks().stream().anyMatch(r -> r.contains(proven ? "a foreign trailer" : "--dump-form trailer=" + bytes)), image.remarks().toString());
            assertFalse(image.remarks().toString().contains("cut off"), image.remarks().toString());
        }
        JsonNode counts = Cli.run("verify", Files.write(folder.resolve("plain.img"), disk), "--json").json().get("counts");
        assertEquals(counts, Cli.run("verify", file, "--json", "--dump-form", "trailer=" + bytes).json().get("counts"));
        assertTrue(Cli.run("layout", file, "--dump-form", "trailer=0").status() == 0);
    }

    /** Without a structure that says so, a part of a sector stays a sector that was cut off. */
    @Test
    void aCutOffSectorStaysOne() throws Exception {
        byte[] disk = image("probe-partitions", "gpt");
        try (OpenImage image = Images.open(Files.write(folder.resolve("cut.img"), Arrays.copyOf(disk, disk.length - 100)))) {
            assertEquals(0, image.dumpForm().form().trailer());
            assertTrue(image.remarks().toString().contains("cut off"), image.remarks().toString());
        }
    }

    @Test
    void whatFollowsTheCopyOfAnNtfsBootSectorIsATrailer() throws Exception {
        byte[] disk = image("ntfs-volumes", "small-clusters-512-subdirs");
        try (OpenImage image = Images.open(withTail(disk, 20))) {
            long trailer = image.dumpForm().form().trailer();
            assertTrue(trailer % 512 == 20 && image.bytes() == disk.length + 20 - trailer, image.remarks().toString());
        }
    }

    @ParameterizedTest
    @CsvSource({"1536", "40960", "700001"})
    void aBackupHeaderTellsWhereTheFilesBegin(int lost) throws Exception {
        byte[] disk = image("probe-partitions", "gpt");
        Path file = Files.write(folder.resolve("middle.img"), Arrays.copyOfRange(disk, lost, disk.length));
        try (OpenImage image = Images.open(file)) {
            assertTrue(image.dumpForm().form().plain(), "offered only");
            assertTrue(image.dumpFormClues().stream().anyMatch(c -> c.form().firstImageByte() == lost && c.reason().contains("backup GPT header")), image.remarks().toString());
            assertTrue(image.remarks().stream().anyMatch(r -> r.contains("--dump-form first=" + lost)), image.remarks().toString());
        }
        try (OpenImage image = Images.open(file, sectorglass.image.OpenOptions.DEFAULT.withDumpForm(sectorglass.image.DumpForm.PLAIN.withFirstImageByte(lost)))) {
            assertEquals(disk.length, image.bytes());
            assertEquals(ReadState.UNREAD, image.state(lost / 512 - 1));
        }
        JsonNode whole = Cli.run("layout", Files.write(folder.resolve("plain.img"), disk), "--json").json().get("partitions");
        JsonNode middle = Cli.run("layout", file, "--json", "--dump-form", "first=" + lost).json().get("partitions");
        assertEquals(whole.size(), middle.size());
        for (int i = 0; i < whole.size(); i++) {
            assertEquals(whole.get(i).get("firstLba"), middle.get(i).get("firstLba"));
        }
    }

    /** A header damaged in one bit proves nothing. */
    @Test
    void aDamagedBackupHeaderProvesNothing() throws Exception {
        byte[] disk = image("probe-partitions", "gpt");
        disk[disk.length - 512 + 60] ^= 1;
        disk[512 + 60] ^= 1;
        try (OpenImage image = Images.open(withTail(disk, 100))) {
            assertEquals(0, image.dumpForm().form().trailer(), image.remarks().toString());
        }
        try (OpenImage image = Images.open(Files.write(folder.resolve("m.img"), Arrays.copyOfRange(disk, 4096, disk.length)))) {
            assertTrue(image.dumpFormClues().stream().noneMatch(c -> c.form().firstImageByte() == 4096));
        }
    }
}
