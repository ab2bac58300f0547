package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.testkit.Tool;

/** ext4 volumes against e2fsprogs 1.47 and util-linux 2.38. */
class ExtVolumeTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource({"16384, 512, 1024", "40000, 512, 1024", "65536, 512, 2048", "600000, 512, 4096", "16384, 4096, 4096"})
    void isSoundToTheCheckerAndReadsBackTheSame(long sectors, int sectorSize, int blockBytes) throws IOException {
        DiskDescription disk = DiskDescription.volume(sectors, sectorSize, 7, Samples.volume(VolumeKind.EXT4, blockBytes));
        Path image = Samples.make(folder, disk);
        Soundness.assertSound(VolumeKind.EXT4, image);
        String probe = Tool.run("blkid", "-p", image.toString()).ok();
        assertTrue(probe.contains(" LABEL=\"SAMPLE\"") && probe.contains("TYPE=\"ext4\""), probe);
        Path out = Files.createDirectory(folder.resolve("out"));
        Tool.run("debugfs", "-R", "rdump / " + out, image.toString()).ok();
        for (String path : Samples.paths(disk.volume().root(), "")) {
            DataFile file = Samples.find(disk.volume().root(), path);
            assertArrayEquals(Samples.content(disk, 1, file, path), Files.readAllBytes(out.resolve(path)), path);
        }
    }

    @Test
    void aFileInManyPiecesHasATreeOfExtents() throws IOException {
        Folder root = Folder.root(Samples.TIMES,
                DataFile.of("pieces.bin", 300_000, ContentKind.RANDOM, Samples.TIMES).inPieces(60));
        DiskDescription disk = DiskDescription.volume(32768, 512, 7, new VolumeDescription(VolumeKind.EXT4, "", 1, 1024, root));
        Path image = Samples.make(folder, disk);
        Soundness.assertSound(VolumeKind.EXT4, image);
        String extents = Tool.run("debugfs", "-R", "ex pieces.bin", image.toString()).ok();
        assertEquals(60, extents.lines().filter(line -> line.trim().startsWith("1/")).count(), extents);
    }

    @Test
    void deletedFilesLeaveATimeAndTheirNameInTheSlack() throws IOException {
        DiskDescription disk = DiskDescription.volume(32768, 512, 7, Samples.volume(VolumeKind.EXT4, 1024));
        Path image = folder.resolve("deleted.img");
        MadeVolume made = DiskMaker.withPlaces().make(disk, image).volumes().get(0);
        long inode = made.file("gone away.txt").record();
        String deleted = Tool.run("debugfs", "-R", "lsdel", image.toString()).ok() + Tool.run("debugfs", "-R", "stat <" + inode + ">",
                image.toString()).ok();
        assertTrue(deleted.contains("dtime"), deleted);
        String listing = Tool.run("debugfs", "-R", "ls -d /", image.toString()).ok();
        assertTrue(listing.contains("<" + inode + ">") && listing.contains("gone away.txt"), listing);
    }
}
