package sectorglass.apple;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Allocation;
import sectorglass.disk.Extent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.ReadOrder;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.ApfsMaker;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;
import sectorglass.testvolumes.Specs;

/** Containers that apfsck finds sound: no finding, and every file comes out as it went in. */
class ApfsFilesTest {
    private static final List<String> RULES = List.of("apfs.obj.checksum", "apfs.obj.identity", "apfs.nx.latest", "apfs.space.free-sum",
            "apfs.space.size", "apfs.space.chunk-free", "apfs.vol.reachable", "apfs.btree.node", "apfs.btree.order", "apfs.vol.counts",
            "apfs.dir.target", "apfs.dir.children", "apfs.extent.marked");

    @TempDir
    static Path folder;

    private static DiskFile rich() throws IOException {
        return DiskFile.of(ApfsMade.rich(folder, "rich.img", 40));
    }

    @Test
    void whatTheMakerWritesIsSoundForApfsck() throws IOException {
        // all but the file that is compressed in its resource fork: for that, apfsck looks nodes up once more and takes them for doubles
        Tool.run("apfsck", "-cuw", ApfsMade.rich(folder, "judged.img", 40).toString()).ok();
        Tool.run("apfsck", "-cuw", ApfsMade.rich(folder, "judged-many.img", 2200).toString()).ok();
    }

    @Test
    void soundContainerPassesEveryRule() throws IOException {
        try (DiskFile image = rich()) {
            Judged judged = Judged.full(image);
            assertEquals("", judged.text());
            for (String rule : RULES) {
                assertTrue(judged.passed(rule), rule);
            }
            assertTrue(judged.volume().info().remarks().toString().contains("volume \"TESTVOL\", role none"), judged.volume().info().remarks().toString());
            assertEquals("[Role[role=USER_FOLDERS, reasons=[the container holds the volume \"TESTVOL\", role none]]]",
                    judged.volume().roles().toString());
            List<String> problems = new ArrayList<>();
            assertEquals(6, Specs.decode(judged.volume(), problems));
            int[] kinds = new int[16];
            for (long block = 0; block < 22200; block = block == 70 ? 20000 : block == 20010 ? 21000 : block == 21030 ? 22100 : block + 1) {
                judged.volume().structureAt(block * 4096 + 100).ifPresent(s -> {
                    Specs.decode(image, s, problems);
                    kinds[image.window(s.range().start() + 24, 4).u16le(0) & 15]++;
                });
            }
            for (int kind : new int[] {1, 2, 3, 5, 7, 0xB, 0xC, 0xD}) {
                assertTrue(kinds[kind] > 0, "no structure of type " + kind);
            }
            assertEquals(List.of(), problems);
        }
    }

    @Test
    void everyFileComesOut() throws IOException {
        try (DiskFile image = rich()) {
            Files files = Judged.open(image).orElseThrow().capability(Files.class).orElseThrow();
            FileTree tree = files.tree(Progress.NONE);
            assertEquals(List.of(), tree.remarks());
            assertEquals(-1, tree.withoutFolder());
            String docs = "TESTVOL/docs/";
            assertArrayEquals(HfsVolumesMade.text("hello, world\n"), HfsPlusTest.content(files, "TESTVOL/hello.txt", ""));
            assertArrayEquals(HfsVolumesMade.text("composed"), HfsPlusTest.content(files, docs + "Übung: drei", ""));
            assertArrayEquals(HfsVolumesMade.noise(200000, 1), HfsPlusTest.content(files, docs + "pieces.bin", ""));
            assertEquals(49, files.content(tree.find(docs + "pieces.bin").orElseThrow(), "").extents().size());
            assertArrayEquals(HfsVolumesMade.text("inline ".repeat(40)), HfsPlusTest.content(files, docs + "inline.z", ""));
            byte[] large = HfsVolumesMade.text("compressed in a fork, ".repeat(7000));
            assertArrayEquals(large, HfsPlusTest.content(files, docs + "fork.z", ""));
            assertArrayEquals(HfsVolumesMade.resource(large), HfsPlusTest.content(files, docs + "fork.z", ApfsFiles.RESOURCE));
            assertArrayEquals(new byte[0], HfsPlusTest.content(files, docs + "empty", ""));
            byte[] sparse = HfsPlusTest.content(files, docs + "sparse", "");
            assertEquals(3 * 4096 + 5000, sparse.length);
            assertArrayEquals(HfsVolumesMade.noise(5000, 4), java.util.Arrays.copyOfRange(sparse, 3 * 4096, sparse.length));
            assertEquals(Extent.Kind.HOLE, files.content(tree.find(docs + "sparse").orElseThrow(), "").extents().get(0).kind());
            FileEntry first = tree.entry(tree.find(docs + "first").orElseThrow());
            assertEquals(2, first.links());
            assertEquals(2, tree.withNumber(first.number()).size());
            assertArrayEquals(HfsVolumesMade.text("linked content"), HfsPlusTest.content(files, "TESTVOL/second", ""));
            FileEntry symbolic = tree.entry(tree.find(docs + "symbolic").orElseThrow());
            assertEquals(List.of("A symbolic link to /docs/empty."), symbolic.remarks());
            FileEntry hello = tree.entry(tree.find("TESTVOL/hello.txt").orElseThrow());
            assertEquals("2023-11-14T22:13:20Z", hello.times().modified().toString());
            assertEquals("2023-11-14T22:13:20Z", hello.times().created().toString());
            assertTrue(files.structure(tree.find("TESTVOL/private-dir").orElseThrow()));
        }
    }

    @Test
    void treesOfSeveralLevelsAreFollowed() throws IOException {
        try (DiskFile image = DiskFile.of(ApfsMade.rich(folder, "many.img", 2200))) {
            Judged judged = Judged.full(image);
            assertEquals("", judged.text());
            Files files = judged.volume().capability(Files.class).orElseThrow();
            for (int i = 0; i < 2200; i += 7) {
                assertArrayEquals(HfsVolumesMade.text("content " + i), HfsPlusTest.content(files, "TESTVOL/docs/file number " + i, ""));
            }
        }
    }

    @Test
    void aVolumeThatTellsCapitalsIsRead() throws IOException {
        try (DiskFile image = DiskFile.of(ApfsMade.empty(folder, "case.img", "-s"))) {
            Judged judged = Judged.full(image);
            assertEquals("", judged.text());
            FileTree tree = judged.volume().capability(Files.class).orElseThrow().tree(Progress.NONE);
            assertTrue(tree.find("TESTVOL/private-dir").isPresent());
        }
    }

    @Test
    void allocationAndOwners() throws IOException {
        try (DiskFile image = rich()) {
            var volume = Judged.open(image).orElseThrow();
            Allocation allocation = volume.capability(Allocation.class).orElseThrow();
            assertEquals(volume.info().usedBytes() / 512, allocation.used().count());
            assertEquals(image.sectors(), allocation.used().count() + allocation.free().count());
            assertTrue(allocation.unknown().isEmpty());
            Files files = volume.capability(Files.class).orElseThrow();
            int entry = files.tree(Progress.NONE).find("TESTVOL/docs/pieces.bin").orElseThrow();
            Extent piece = files.content(entry, "").extents().get(7);
            Allocation.Owner owner = allocation.owners(piece.imageByte() / 512 + 2, Progress.NONE).get(0);
            assertEquals("TESTVOL/docs/pieces.bin", owner.owner());
            assertEquals(piece.offset() + 1024, owner.offset());
            assertEquals("file system metadata", allocation.owners(0, Progress.NONE).get(0).owner());
        }
    }

    @Test
    void withOnlyThePlannedMetadataEveryPlaceIsKnown() throws IOException {
        try (DiskFile image = rich()) {
            var volume = Judged.open(image).orElseThrow();
            List<ReadOrder.Stage> stages = volume.capability(ReadOrder.class).orElseThrow().stages(Progress.NONE);
            SectorRanges known = SectorRanges.EMPTY;
            for (ReadOrder.Stage stage : stages) {
                assertTrue(stage.complete(), stage.reason());
                known = known.union(stage.sectors());
            }
            DiskFile partly = image.unread(SectorRanges.of(0, image.sectors()).minus(known));
            Files all = volume.capability(Files.class).orElseThrow();
            Files files = Judged.open(partly).orElseThrow().capability(Files.class).orElseThrow();
            FileTree tree = files.tree(Progress.NONE);
            assertEquals(all.tree(Progress.NONE).size(), tree.size());
            assertTrue(tree.unreadMetadata().isEmpty());
            int entry = tree.find("TESTVOL/docs/pieces.bin").orElseThrow();
            assertEquals(all.content(entry, "").extents(), files.content(entry, "").extents());
            assertEquals(FileState.LOST, files.content(entry, "").state());
        }
    }

    @Test
    void anUnreadNodeIsSaid() throws IOException {
        try (DiskFile image = DiskFile.of(ApfsMade.rich(folder, "many.img", 2200))) {
            Files whole = Judged.open(image).orElseThrow().capability(Files.class).orElseThrow();
            ApfsContainer container = new ApfsContainer(image.site(), 0);
            ApfsCatalog catalog = new ApfsCatalog(container.volumes().found().get(0), Progress.NONE);
            long leaf = catalog.leaves.get(catalog.leaves.size() / 2);
            DiskFile partly = image.unread(SectorRanges.of(leaf * 8, 8));
            Judged judged = Judged.full(partly);
            assertEquals(List.of(), judged.failed(), judged.text());
            assertTrue(judged.undecided().contains("apfs.vol.counts"), judged.text());
            FileTree tree = judged.volume().capability(Files.class).orElseThrow().tree(Progress.NONE);
            assertEquals(8, tree.unreadMetadata().count());
            assertTrue(tree.size() > 2000 && tree.size() < whole.tree(Progress.NONE).size() + 2, tree.size() + " entries");
        }
    }

    @Test
    void anEncryptedVolumeIsSaid() throws IOException {
        try (DiskFile image = rich()) {
            ApfsContainer container = new ApfsContainer(image.site(), 0);
            long block = container.volumes().found().get(0).block;
            byte[] superblock = container.header(block).window().bytes(0, 4096);
            superblock[0x108] &= ~1;
            java.nio.ByteBuffer.wrap(superblock).order(java.nio.ByteOrder.LITTLE_ENDIAN).putLong(0, ApfsMaker.sum(superblock));
            DiskFile locked = image.set(0, (byte) image.window(0, 1).u8(0));
            for (int i = 0; i < 4096; i++) {
                locked.plant(block * 4096 + i, superblock[i] & 0xFF);
            }
            Files files = Judged.open(locked).orElseThrow().capability(Files.class).orElseThrow();
            FileTree tree = files.tree(Progress.NONE);
            FileEntry volume = tree.entry(tree.find("TESTVOL").orElseThrow());
            assertEquals(FileState.ENCRYPTED, volume.special());
            int entry = tree.find("TESTVOL/hello.txt").orElseThrow();
            assertEquals(FileState.ENCRYPTED, files.content(entry, "").state());
            assertEquals(List.of(), Judged.full(locked).failed());
            // ciphertext in place of the nodes
            ApfsCatalog catalog = new ApfsCatalog(container.volumes().found().get(0), Progress.NONE);
            long root = container.volumes().found().get(0).map().block(container.volumes().found().get(0).w.u64le(0x88));
            byte[] noise = HfsVolumesMade.noise(4096, 8);
            for (int i = 0; i < 4096; i++) {
                locked.plant(root * 4096 + i, noise[i] & 0xFF);
            }
            assertTrue(catalog.size() > 0);
            FileTree empty = Judged.open(locked).orElseThrow().capability(Files.class).orElseThrow().tree(Progress.NONE);
            assertTrue(empty.remarks().get(0).contains("is encrypted"), empty.remarks().toString());
        }
    }
}
