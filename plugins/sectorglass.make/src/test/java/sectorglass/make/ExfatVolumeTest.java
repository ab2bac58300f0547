package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.make.write.Block;
import sectorglass.make.write.UpCase;
import sectorglass.testkit.Tool;

/** exFAT volumes against exfatprogs 1.2.0 and util-linux 2.38. */
class ExfatVolumeTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource({"8192, 512, 512", "65536, 512, 4096", "400000, 512, 32768", "8192, 4096, 8192"})
    void isSoundToTheChecker(long sectors, int sectorSize, int clusterBytes) throws IOException {
        DiskDescription disk = DiskDescription.volume(sectors, sectorSize, 7, Samples.volume(VolumeKind.EXFAT, clusterBytes));
        Path image = Samples.make(folder, disk);
        Tool.Result check = Tool.run("fsck.exfat", "-n", "-v", image.toString());
        assertEquals(0, check.status(), check.out());
        int files = Samples.paths(Samples.root(), "").size();
        assertTrue(check.out().contains("clean. directories 5, files " + files), check.out());
        assertTrue(!check.out().contains("rror") && !check.out().contains("orrupt"), check.out());
        String probe = Tool.run("blkid", "-p", image.toString()).ok();
        assertTrue(probe.contains(" LABEL=\"SAMPLE\"") && probe.contains("UUID=\"1234-ABCD\"") && probe.contains("\"exfat\""), probe);
        long free = Tool.run("dump.exfat", image.toString()).ok().lines().filter(l -> l.contains("Free Clusters"))
                .mapToLong(l -> Long.parseLong(l.replaceAll("\\D", ""))).findFirst().orElseThrow();
        assertEquals(free(Files.readAllBytes(image), sectorSize), free);
    }

    /** Free clusters counted from the bits, bit by bit. */
    private static long free(byte[] image, int sectorSize) {
        Block boot = new Block(image);
        long heap = boot.u32(88) * sectorSize;
        long free = 0;
        for (int i = 0; i < boot.u32(92); i++) {
            free += 1 - (image[(int) heap + i / 8] >> i % 8 & 1);
        }
        return free;
    }

    @Test
    void everyFileLiesWhereThePlacesSay() throws IOException {
        DiskDescription disk = DiskDescription.volume(65536, 512, 7, Samples.volume(VolumeKind.EXFAT, 4096));
        Path file = folder.resolve("placed.img");
        MadeVolume made = DiskMaker.withPlaces().make(disk, file).volumes().get(0);
        byte[] image = Files.readAllBytes(file);
        for (String path : Samples.paths(disk.volume().root(), "")) {
            DataFile described = Samples.find(disk.volume().root(), path);
            MadeVolume.Place place = made.file(path);
            assertEquals(0x85, image[(int) place.entryByte()] & 0xFF, path);
            byte[] content = new byte[0];
            for (MadeVolume.Run run : place.runs()) {
                int at = content.length;
                content = Arrays.copyOf(content, at + (int) run.bytes());
                System.arraycopy(image, (int) run.firstByte(), content, at, (int) run.bytes());
            }
            assertArrayEquals(Samples.content(disk, 1, described, path), Arrays.copyOf(content, (int) described.bytes()), path);
        }
        assertEquals(3, made.file("A long name with many words in it.bin").runs().size());
    }

    @Test
    void tableIsTheRecommendedOne() {
        byte[] table = UpCase.EXFAT.compressed();
        // exFAT specification, section 7.2.5.1: 5836 bytes, checksum E619D30D
        assertEquals(5836, table.length);
        int sum = 0;
        for (byte b : table) {
            sum = (sum << 31 | sum >>> 1) + (b & 0xFF);
        }
        assertEquals(0xE619D30D, sum);
    }

    @Test
    void namesHashAndSetsSumAsInTheVectors() throws IOException {
        // the set of hello.txt, 21 bytes, cluster 6, UTC+01:00 replaced by UTC: hash 3046 (exFAT specification, section 7.6.4)
        Times times = Times.at("2020-02-29T12:34:57.50Z");
        Folder root = Folder.root(times, DataFile.of("hello.txt", 21, ContentKind.ZERO, times));
        DiskDescription disk = DiskDescription.volume(8192, 512, 1, new VolumeDescription(VolumeKind.EXFAT, "EXVOL", 1, 4096, root));
        Path file = folder.resolve("set.img");
        MadeVolume made = DiskMaker.withPlaces().make(disk, file).volumes().get(0);
        byte[] image = Files.readAllBytes(file);
        int at = (int) made.file("hello.txt").entryByte();
        String hex = HexFormat.of().formatHex(image, at, at + 96);
        assertEquals("200000005c645d505c645d505c645d5096968080800000000000000" + "0", hex.substring(8, 64));
        assertEquals("c0030009463000001500000000000000000000000600000015000000000000" + "00", hex.substring(64, 128));
        assertEquals("c100680065006c006c006f002e0074007800740000000000000000000000" + "0000", hex.substring(128));
    }
}
