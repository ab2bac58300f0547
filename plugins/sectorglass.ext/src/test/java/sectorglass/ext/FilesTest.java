package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.ReadOrder;
import sectorglass.disk.Volume;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;

/** Tree, content, allocation and order of reading, against debugfs and dumpe2fs. */
class FilesTest {

    @ParameterizedTest
    @ValueSource(strings = {"e2", "e3", "e4", "e4u", "e4h", "e4seed"})
    void contentIsWhatWasWritten(String name) {
        Files files = files(DiskFile.of(ExtImages.image(name)));
        assertArrayEquals("hello, world\n".getBytes(StandardCharsets.US_ASCII), read(files, "hello.txt"));
        assertArrayEquals(ExtImages.bigFile(), read(files, "docs/sub/big.bin"));
        assertArrayEquals(ExtImages.sparseFile(), read(files, "sparse.bin"));
        assertEquals(0, read(files, "empty").length);
        assertArrayEquals("hello.txt".getBytes(StandardCharsets.US_ASCII), read(files, "short"));
        assertTrue(new String(read(files, "long"), StandardCharsets.US_ASCII).startsWith("a-very-long-symlink-target"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"e2", "e4", "e4h", "e4seed"})
    void namesAreThoseOfDebugfs(String name) {
        byte[] bytes = ExtImages.image(name);
        Path copy = ExtImages.file(bytes);
        FileTree tree = files(DiskFile.of(bytes)).tree(Progress.NONE);
        for (String folder : List.of("/", "/docs", "/docs/sub", "/many")) {
            TreeSet<String> expected = new TreeSet<>();
            for (String line : Tool.run(Map.of(), null, 20, "debugfs", "-R", "ls -p " + folder, copy.toString()).ok().split("\n")) {
                String[] part = line.split("/", -1);
                if (part.length > 6 && !part[5].equals(".") && !part[5].equals("..") && !part[1].equals("0")) {
                    expected.add(part[5] + " " + part[1] + " " + (part[6].isEmpty() ? "0" : part[6]));
                }
            }
            int id = tree.find(folder.substring(1)).orElseThrow();
            TreeSet<String> found = new TreeSet<>();
            for (int i = 0; i < tree.childCount(id); i++) {
                int child = tree.child(id, i);
                if (!tree.deleted(child)) {
                    found.add(tree.name(child) + " " + tree.number(child) + " " + (tree.folder(child) ? 0 : tree.bytes(child)));
                }
            }
            assertFalse(expected.isEmpty());
            assertEquals(expected, found);
        }
        assertTrue(tree.unreadMetadata().isEmpty());
    }

    @Test
    void deletedFileKeepsNamePlaceAndContent() {
        Path copy = ExtImages.file(ExtImages.image("e4"));
        Tool.run(Map.of("E2FSPROGS_FAKE_TIME", "1700000100"), null, 20, "debugfs", "-w", "-R", "rm docs/one-block.bin", copy.toString()).ok();
        Files files = files(DiskFile.of(copy));
        FileTree tree = files.tree(Progress.NONE);
        int id = tree.find("docs/one-block.bin").orElseThrow();
        assertTrue(tree.deleted(id));
        assertEquals(15, tree.number(id));
        assertEquals(4096, tree.bytes(id));
        assertArrayEquals(java.util.Arrays.copyOf(new byte[] {0, 1, 2, 3}, 4), java.util.Arrays.copyOf(read(files, "docs/one-block.bin"), 4));
    }

    @Test
    void placesAreThoseThatDebugfsNames() {
        // dumpe2fs and debugfs 1.47: big.bin of e4 maps (0-48):83-131; e3 maps 12 to 1110 and 180 to 1278
        Content big = content(files(DiskFile.of(ExtImages.image("e4"))), "docs/sub/big.bin");
        assertEquals(List.of(Extent.plain(0, 200000, 83 * 4096L)), big.extents());
        Files e3 = files(DiskFile.of(ExtImages.image("e3")));
        long at12 = content(e3, "docs/sub/big.bin").extents().stream().filter(e -> e.offset() <= 12 * 1024 && e.end() > 12 * 1024)
                .findFirst().map(e -> e.imageByte() + 12 * 1024 - e.offset()).orElseThrow();
        assertEquals(1110 * 1024L, at12);
        long holes = content(files(DiskFile.of(ExtImages.image("e4"))), "sparse.bin").extents().stream()
                .filter(e -> e.kind() == Extent.Kind.HOLE).count();
        assertEquals(11, holes);
    }

    @Test
    void unreadPlacesAreNamed() {
        SectorRanges lost = SectorRanges.of(83 * 8 + 16, 3);
        Files files = files(DiskFile.of(ExtImages.image("e4")).unread(lost));
        Content big = content(files, "docs/sub/big.bin");
        assertEquals(FileState.DAMAGED, big.state());
        assertEquals(List.of(new sectorglass.image.ByteRange(16 * 512, 3 * 512)), big.missing());
        assertEquals(FileState.COMPLETE, content(files, "sparse.bin").state());
    }

    @Test
    void aLostDirectoryLeavesItsFilesWithoutAFolder() {
        // /docs/sub is block 80 of e4; its file is inode 16
        DiskFile image = DiskFile.of(ExtImages.image("e4")).unread(SectorRanges.of(80 * 8, 8));
        FileTree tree = files(image).tree(Progress.NONE);
        assertEquals(SectorRanges.of(640, 8), tree.unreadMetadata());
        List<Integer> ids = tree.withNumber(16);
        assertEquals(1, ids.size());
        assertEquals(tree.withoutFolder(), tree.parent(ids.get(0)));
        assertEquals(200000, tree.bytes(ids.get(0)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"e2", "e3", "e4", "e4u", "e4seed"})
    void freeBlocksAreThoseOfDumpe2fs(String name) {
        byte[] bytes = ExtImages.image(name);
        String text = Tool.run(Map.of(), null, 20, "dumpe2fs", ExtImages.file(bytes).toString()).ok();
        long free = number(text, "Free blocks:");
        long size = number(text, "Block size:");
        Volume volume = Forced.open(DiskFile.of(bytes));
        Allocation allocation = volume.capability(Allocation.class).orElseThrow();
        assertEquals(free * size / 512, allocation.free().count());
        assertTrue(allocation.unknown().isEmpty());
        assertTrue(allocation.used().intersect(allocation.free()).isEmpty());
        assertTrue(allocation.metadata().minus(allocation.used()).isEmpty(), "metadata is marked used");
        assertEquals(number(text, "Block count:") * size - free * size, volume.info().usedBytes());
    }

    @Test
    void ownersAndOrder() {
        Volume volume = Forced.open(DiskFile.of(ExtImages.image("e4")));
        Allocation allocation = volume.capability(Allocation.class).orElseThrow();
        List<Allocation.Owner> owners = allocation.owners(new SectorRange(83 * 8 + 8, 1), Progress.NONE);
        assertEquals(List.of("docs/sub/big.bin"), owners.stream().map(Allocation.Owner::owner).toList());
        assertEquals(4096, owners.get(0).offset());
        List<ReadOrder.Stage> stages = volume.capability(ReadOrder.class).orElseThrow().stages(Progress.NONE);
        assertTrue(stages.get(0).sectors().contains(2));
        assertTrue(stages.get(1).sectors().contains(10 * 8));
        assertTrue(stages.get(2).sectors().contains(74 * 8));
        assertTrue(stages.get(3).sectors().contains(4096 * 8));
    }

    private static long number(String text, String label) {
        return text.lines().filter(l -> l.startsWith(label)).map(l -> Long.parseLong(l.substring(label.length()).strip())).findFirst()
                .orElseThrow();
    }

    private static Files files(DiskFile image) {
        return Forced.open(image).capability(Files.class).orElseThrow();
    }

    private static Content content(Files files, String path) {
        return files.content(files.tree(Progress.NONE).find(path).orElseThrow(), "");
    }

    private static byte[] read(Files files, String path) {
        Content content = content(files, path);
        byte[] bytes = new byte[(int) content.bytes()];
        assertEquals(List.of(), content.read(0, bytes, 0, bytes.length));
        return bytes;
    }
}
