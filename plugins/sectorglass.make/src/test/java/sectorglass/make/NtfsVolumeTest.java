package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.make.write.UpCase;
import sectorglass.testkit.Tool;

/** NTFS volumes against the utilities of ntfs-3g 2022.10.3 and util-linux 2.38. */
class NtfsVolumeTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource({"32768, 512, 512", "65536, 512, 4096", "262144, 512, 65536", "16384, 4096, 4096", "65536, 1024, 2048"})
    void isSoundToTheCheckersAndReadsBackTheSame(long sectors, int sectorSize, int clusterBytes) throws IOException {
        DiskDescription disk = DiskDescription.volume(sectors, sectorSize, 7, Samples.volume(VolumeKind.NTFS, clusterBytes));
        Path image = Samples.make(folder, disk);
        assertSound(image);
        String info = Tool.run("ntfsinfo", "-f", "-m", image.toString()).ok();
        assertTrue(info.contains("Volume Name: SAMPLE") && info.contains("Cluster Size: " + clusterBytes), info);
        String probe = Tool.run("blkid", "-p", image.toString()).ok();
        assertTrue(probe.contains(" LABEL=\"SAMPLE\"") && probe.contains("UUID=\"1122334455667788\""), probe);
        List<String> paths = Samples.paths(disk.volume().root(), "");
        Path out = Files.createDirectory(folder.resolve("out"));
        Tool.run(Map.of(), String.join("\n", paths) + "\n", 20, "sh", "-c",
                "i=0; while read -r path; do i=$((i+1)); ntfscat -f \"$1\" \"$path\" > \"$2/$i\" || exit 1; done", "sh",
                image.toString(), out.toString()).ok();
        for (int i = 0; i < paths.size(); i++) {
            DataFile file = Samples.find(disk.volume().root(), paths.get(i));
            assertArrayEquals(Samples.content(disk, 1, file, paths.get(i)), Files.readAllBytes(out.resolve("" + (i + 1))),
                    paths.get(i));
        }
    }

    private static void assertSound(Path image) {
        Tool.Result check = Tool.run("ntfsresize", "-i", "-f", image.toString());
        assertEquals(0, check.status(), check.out());
        assertTrue(check.out().contains("Space in use"), check.out());
        Tool.Result fix = Tool.run("ntfsfix", "-n", image.toString());
        assertEquals(0, fix.status(), fix.out());
        assertTrue(fix.out().contains("alternate boot sector... OK"), fix.out());
    }

    private byte[] cat(Path image, String path) throws IOException {
        Path out = folder.resolve("cat.out");
        Tool.run("sh", "-c", "exec ntfscat -f \"$1\" \"$2\" > \"$3\"", "sh", image.toString(), path, out.toString()).ok();
        return Files.readAllBytes(out);
    }

    @Test
    void aFolderOf3000NamesIsATreeInWhichEveryNameIsFound() throws IOException {
        Folder root = Folder.root(Samples.TIMES,
                Folder.of("many", Samples.TIMES, Samples.many(3000, "Entry with a rather long name, number ")),
                Folder.of("empty", Samples.TIMES));
        DiskDescription disk = DiskDescription.volume(131072, 512, 7, new VolumeDescription(VolumeKind.NTFS, "", 1, 4096, root));
        Path image = folder.resolve("many.img");
        MadeVolume made = DiskMaker.withPlaces().make(disk, image).volumes().get(0);
        assertSound(image);
        List<String> names = Samples.many(3000, "Entry with a rather long name, number ").stream().map(DataFile::name)
                .sorted(UpCase.NTFS::compare).toList();
        assertEquals(names, Tool.run("ntfsls", "-f", "-p", "/many", image.toString()).ok().lines()
                .filter(name -> !name.equals(".")).sorted(UpCase.NTFS::compare).toList());
        assertEquals(names, new IndexWalk(Files.readAllBytes(image), made.file("many")).names(), "in the order of the tree");
        for (int i : new int[] {1, 2, 77, 999, 1000, 1500, 2048, 2999, 3000}) {
            String path = "many/Entry with a rather long name, number " + i + ".txt";
            assertArrayEquals(Samples.content(disk, 1, Samples.find(root, path), path), cat(image, path), path);
        }
    }

    @Test
    void runsAndDeletedRecordsAreAsDescribed() throws IOException {
        DiskDescription disk = DiskDescription.volume(65536, 512, 7, Samples.volume(VolumeKind.NTFS, 4096));
        Path image = folder.resolve("runs.img");
        MadeVolume made = DiskMaker.withPlaces().make(disk, image).volumes().get(0);
        String path = "A long name with many words in it.bin";
        String runs = Tool.run("ntfscluster", "-f", "-F", path, image.toString()).ok();
        for (MadeVolume.Run run : made.file(path).runs()) {
            assertTrue(runs.replaceAll("\\s+", " ").contains(" " + run.firstByte() / 4096 + " " + run.bytes() / 4096), runs);
        }
        assertEquals(3, made.file(path).runs().size());
        byte[] bytes = Files.readAllBytes(image);
        int record = (int) made.file("gone away.txt").entryByte();
        assertEquals("46494c45", HexFormat.of().formatHex(bytes, record, record + 4));
        assertEquals("0200", HexFormat.of().formatHex(bytes, record + 0x10, record + 0x12), "sequence");
        assertEquals("0000", HexFormat.of().formatHex(bytes, record + 0x16, record + 0x18), "flags");
        String free = Tool.run("ntfsinfo", "-f", "-i", Long.toString(made.file("gone away.txt").record()), image.toString()).out();
        assertTrue(free.contains("rror"), "a deleted record is not opened: " + free);
    }

    @ParameterizedTest
    @CsvSource({"26, 1", "90, 1", "91, 2", "700, 8"})
    void aFileInManyPiecesHasAnAttributeListAndExtensionRecords(int pieces, int extensions) throws IOException {
        DataFile scattered = DataFile.of("scattered.bin", 3_000_001, ContentKind.RANDOM, Samples.TIMES).inPieces(pieces);
        Folder root = Folder.root(Samples.TIMES, scattered, DataFile.of("after.txt", 50, ContentKind.TEXT, Samples.TIMES),
                DataFile.of("gone.bin", 400_000, ContentKind.RANDOM, Samples.TIMES).inPieces(40).asDeleted());
        DiskDescription disk = DiskDescription.volume(65536, 512, 7, new VolumeDescription(VolumeKind.NTFS, "", 1, 4096, root));
        Path image = folder.resolve("scattered.img");
        MadeVolume made = DiskMaker.withPlaces().make(disk, image).volumes().get(0);
        assertSound(image);
        assertEquals(24 + extensions + 1, made.file("after.txt").record());
        assertArrayEquals(Samples.content(disk, 1, scattered, "scattered.bin"), cat(image, "scattered.bin"));
        assertArrayEquals(Samples.content(disk, 1, (DataFile) root.children().get(1), "after.txt"), cat(image, "after.txt"));
    }

    @Test
    void upperCaseTableIsTheMeasuredOne() throws Exception {
        // SHA-256 of the 131072 bytes of $UpCase as mkntfs 2022.10.3 writes them
        assertEquals("41c26bc7a12bdaeb26025c93118697c7e3ef81ee048b00fe5cce2a472e0e0742",
                HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(UpCase.NTFS.plain())));
    }

    @Test
    void refusesTwoNamesThatDifferInCaseOnly() {
        Folder root = Folder.root(Samples.TIMES, DataFile.of("a.txt", 1, ContentKind.TEXT, Samples.TIMES),
                DataFile.of("A.TXT", 1, ContentKind.TEXT, Samples.TIMES));
        VolumeDescription volume = new VolumeDescription(VolumeKind.NTFS, "", 1, 4096, root);
        assertThrows(IllegalArgumentException.class, () -> Samples.make(folder, DiskDescription.volume(65536, 512, 7, volume)));
    }

    @Test
    void theDriverWritesIntoItAndTheCheckerIsStillContent() throws IOException {
        org.junit.jupiter.api.Assumptions.assumeTrue(Files.exists(Path.of("/dev/fuse")), "no FUSE device");
        Tool.require("ntfs-3g", "fusermount");
        DiskDescription disk = DiskDescription.volume(65536, 512, 7, Samples.volume(VolumeKind.NTFS, 4096));
        Path image = Samples.make(folder, disk);
        Path mount = Files.createDirectory(folder.resolve("mnt"));
        Tool.Result mounted = Tool.run("ntfs-3g", image.toString(), mount.toString());
        org.junit.jupiter.api.Assumptions.assumeTrue(mounted.status() == 0, mounted.out());
        try {
            Tool.run(Map.of(), null, 20, "sh", "-c",
                    "cd \"$1\" && mkdir new && cp README.TXT new/copy && rm 'thirteen.name' && for i in 1 2 3 4 5 6 7 8 9; do "
                    + "cp 'A long name with many words in it.bin' \"Pictures/Inner folder/more $i\"; done", "sh", mount.toString()).ok();
        } finally {
            Tool.run("fusermount", "-u", mount.toString());
        }
        assertSound(image);
    }
}
