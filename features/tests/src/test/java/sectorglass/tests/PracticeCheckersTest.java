package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

import com.fasterxml.jackson.databind.JsonNode;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.practice.disk.PracticeMaker;
import sectorglass.testkit.Tool;

/** What the checkers of the operating system say of planted faults, where they look at all: sfdisk, fsck.fat, fsck.exfat, ntfsresize, e2fsck. */
class PracticeCheckersTest {
    private static final int SECONDS = 20;

    @TempDir
    Path folder;

    private Path disk(String kind) throws IOException {
        Path image = folder.resolve("disk.img");
        new PracticeMaker(Verdicts.BOOK).make(3, List.of(kind), image);
        return image;
    }

    /** The volume of a kind in a file of its own. */
    private Path volume(Path image, String kind) throws IOException {
        for (JsonNode partition : Cli.run("layout", image, "--json").json().get("partitions")) {
            if (partition.at("/volume/kind").asText().startsWith(kind)) {
                byte[] all = Files.readAllBytes(image);
                int first = (int) (partition.get("firstLba").asLong() * 512);
                return Files.write(folder.resolve("volume.img"), java.util.Arrays.copyOfRange(all, first, first + (int) (partition.get("sectors").asLong() * 512)));
            }
        }
        throw new AssertionError("no " + kind);
    }

    private static void says(String wanted, String... command) {
        Tool.Result said = Tool.run(Map.of("LC_ALL", "C"), null, SECONDS, command);
        assertTrue(said.status() != -1 && said.out().toLowerCase(java.util.Locale.ROOT).contains(wanted), String.join(" ", command) + ": " + said);
    }

    @Test
    void sfdiskSeesAWrongHeaderSum() throws IOException {
        Tool.require("sfdisk");
        says("corrupt", "sfdisk", "-V", disk("gpt.header.crc32 primary").toString());
    }

    @Test
    void sfdiskSeesPartitionsThatOverlap() throws IOException {
        Tool.require("sfdisk");
        says("overlap", "sfdisk", "-V", disk("gpt.entry.overlap").toString());
    }

    @Test
    void fsckFatSeesALoop() throws IOException {
        Tool.require("fsck.fat");
        says("circular cluster chain", "fsck.fat", "-n", volume(disk("fat.chain-no-loop"), "fat").toString());
    }

    @Test
    void fsckFatSeesACrossLink() throws IOException {
        Tool.require("fsck.fat");
        says("share clusters", "fsck.fat", "-n", volume(disk("fat.chain-no-cross-link"), "fat").toString());
    }

    @Test
    void fsckExfatSeesASetChecksum() throws IOException {
        Tool.require("fsck.exfat");
        says("checksum of a file is wrong", "fsck.exfat", "-n", volume(disk("exfat.set-checksum"), "exfat").toString());
    }

    @Test
    void fsckExfatSeesAHashThatIsWrongUnderARightChecksum() throws IOException {
        Tool.require("fsck.exfat");
        says("name hash of a file is wrong", "fsck.exfat", "-n", volume(disk("exfat.name-hash"), "exfat").toString());
    }

    @Test
    void ntfsresizeSeesAClusterThatTwoFilesClaim() throws IOException {
        Tool.require("ntfsresize");
        says("referenced multiple times", "ntfsresize", "-f", "-i", volume(disk("ntfs.cluster-claimed-twice"), "ntfs").toString());
    }

    @Test
    void e2fsckSeesAWrongLinkCountUnderARightChecksum() throws IOException {
        Tool.require("e2fsck");
        says("ref count is", "e2fsck", "-fn", volume(disk("ext.links"), "ext").toString());
    }

    @Test
    void e2fsckSeesAWrongInodeChecksum() throws IOException {
        Tool.require("e2fsck");
        says("checksum does not match inode", "e2fsck", "-fn", volume(disk("ext.inode.checksum"), "ext").toString());
    }
}
