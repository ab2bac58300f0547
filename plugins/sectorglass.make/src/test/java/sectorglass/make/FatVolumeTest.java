package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.testkit.Tool;

/** FAT volumes against dosfstools 4.2, mtools 4.0 and util-linux 2.38. */
class FatVolumeTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource({"FAT12, 2880, 512, 512", "FAT12, 40000, 512, 16384", "FAT12, 2048, 4096, 4096", "FAT16, 32768, 512, 2048",
        "FAT16, 200000, 512, 4096", "FAT16, 16384, 4096, 8192", "FAT32, 81920, 512, 512", "FAT32, 600000, 512, 4096",
        "FAT32, 67584, 4096, 4096"})
    void isSoundToTheCheckersAndReadsBackTheSame(VolumeKind kind, long sectors, int sectorSize, int clusterBytes)
            throws IOException {
        DiskDescription disk = DiskDescription.volume(sectors, sectorSize, 7, Samples.volume(kind, clusterBytes));
        Path image = Samples.make(folder, disk);
        Tool.Result check = Tool.run("fsck.fat", "-n", "-v", image.toString());
        assertEquals(0, check.status(), check.out());
        assertTrue(check.out().contains(kind.name().substring(3) + " bit entries"), check.out());
        for (String sign : new String[] {"differ", "rong", "rphan", "Unexpected", "Dirty"}) {
            assertTrue(!check.out().contains(sign), check.out());
        }
        String probe = Tool.run("blkid", "-p", image.toString()).ok();
        assertTrue(probe.contains(" LABEL=\"SAMPLE\"") && probe.contains("UUID=\"1234-ABCD\""), probe);
        assertEquals(Samples.paths(Samples.root(), "").size(), compare(disk, image));
    }

    /** Copies the whole tree out in one go and compares every file. */
    private int compare(DiskDescription disk, Path image) throws IOException {
        Path out = Files.createDirectory(folder.resolve("out"));
        Tool.run(java.util.Map.of("MTOOLS_SKIP_CHECK", "1"), null, 20, "mcopy", "-s", "-n", "-o", "-i", image.toString(), "::/",
                out.toString()).ok();
        int compared = 0;
        for (String path : Samples.paths(disk.volume().root(), "")) {
            DataFile file = Samples.find(disk.volume().root(), path);
            assertArrayEquals(Samples.content(disk, 1, file, path), Files.readAllBytes(out.resolve(path)), path);
            compared++;
        }
        return compared;
    }

    @Test
    void theDirectoryEntryIsTheOneThatMtoolsWrote() throws IOException {
        // "A Long File Name.bin", 5000 bytes, 2020-02-29 12:34:56, first cluster 4: slots as mcopy 4.0.32 wrote them
        Times times = Times.at("2020-02-29T12:34:56Z");
        Folder root = Folder.root(times,
                DataFile.of("X.BIN", 1024, ContentKind.ZERO, times),
                DataFile.of("A Long File Name.bin", 5000, ContentKind.ZERO, times));
        DiskDescription disk = DiskDescription.volume(2880, 512, 1,
                new VolumeDescription(VolumeKind.FAT12, "", 1, 512, root));
        byte[] image = Files.readAllBytes(Samples.make(folder, disk));
        int at = new FatRoot(image).first() + 32;
        assertEquals("4261006d0065002e0062000f003069006e000000ffffffffffff0000ffffffff", hex(image, at, 32));
        assertEquals("01410020004c006f006e000f003067002000460069006c006500000020004e00", hex(image, at + 32, 32));
        assertEquals("414c4f4e47467e3142494e2000005c645d505d5000005c645d50040088130000", hex(image, at + 64, 32));
    }

    private record FatRoot(byte[] image) {
        int first() {
            return 512 * (1 + 2 * (image[22] & 0xFF));
        }
    }

    @Test
    void refusesWhatFatCannotHold() {
        assertThrows(IllegalArgumentException.class, () -> Samples.make(folder,
                DiskDescription.volume(2880, 512, 7, Samples.volume(VolumeKind.FAT16, 512))), "too few clusters for FAT16");
        Folder bad = Folder.root(Samples.TIMES, DataFile.of("a:b", 1, ContentKind.TEXT, Samples.TIMES));
        assertThrows(IllegalArgumentException.class, () -> Samples.make(folder, DiskDescription.volume(2880, 512, 7,
                new VolumeDescription(VolumeKind.FAT12, "", 1, 512, bad))));
        Folder large = Folder.root(Samples.TIMES, DataFile.of("a", 9_000_000, ContentKind.ZERO, Samples.TIMES));
        assertThrows(IllegalArgumentException.class, () -> Samples.make(folder, DiskDescription.volume(2880, 512, 7,
                new VolumeDescription(VolumeKind.FAT12, "", 1, 512, large))));
    }

    private static String hex(byte[] bytes, int at, int length) {
        return java.util.HexFormat.of().formatHex(bytes, at, at + length);
    }
}
