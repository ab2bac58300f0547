package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.zip.CRC32;

import org.junit.jupiter.api.Test;

import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.ReadOrder;
import sectorglass.image.Progress;
import sectorglass.testvolumes.DiskFile;

/** The folder tree and contents of a volume that fsck.exfat 1.2.0 calls clean. */
class FilesTest {

    private static Files files(DiskFile image) {
        return Volumes.volume(image).capability(Files.class).orElseThrow();
    }

    private static int find(FileTree tree, String path) {
        return tree.find(path).orElseThrow(() -> new AssertionError(path + " is not listed: " + paths(tree)));
    }

    private static List<String> paths(FileTree tree) {
        List<String> paths = new ArrayList<>();
        tree.walk(tree.root(), (entry, depth) -> paths.add(tree.path(entry) + (tree.deleted(entry) ? " deleted" : "")));
        return paths;
    }

    /** Names and ids of what stands without a folder, that included. */
    private static Map<String, Integer> lost(FileTree tree) {
        Map<String, Integer> names = new TreeMap<>();
        tree.walk(tree.withoutFolder(), (entry, depth) -> {
            names.put(tree.name(entry), entry);
            return true;
        });
        return names;
    }

    private static String crc(Content content) {
        byte[] bytes = new byte[(int) content.bytes()];
        assertEquals(List.of(), content.read(0, bytes, 0, bytes.length));
        CRC32 crc = new CRC32();
        crc.update(bytes);
        return String.format("%08X", crc.getValue());
    }

    @Test
    void namesTimesAndContentsAreThoseWritten() {
        Files files = files(Volumes.open());
        FileTree tree = files.tree(Progress.NONE);
        assertEquals(List.of("", "hello.txt", "A Long File Name.bin", "frag.bin", "empty.dat", "Sub", "Sub/été note.txt", "gone.txt deleted"),
                paths(tree));
        assertEquals("FB60E962", crc(files.content(find(tree, "hello.txt"), "")));
        assertEquals("279EB882", crc(files.content(find(tree, "Sub/été note.txt"), "")));
        assertEquals(crc(files.content(find(tree, "A Long File Name.bin"), "")), crc(files.content(find(tree, "frag.bin"), "")));
        assertEquals(0, files.content(find(tree, "empty.dat"), "").bytes());
        assertEquals("2020-02-29T12:34:57.500+01:00", tree.entry(find(tree, "hello.txt")).times().modified().toString());
        assertEquals("2020-02-29T12:34:57.500", tree.entry(find(tree, "Sub/été note.txt")).times().modified().toString());
    }

    /** Clusters 10, 12, 11 in this order. */
    @Test
    void aChainIsFollowedInItsOrder() {
        Files files = files(Volumes.open());
        List<Extent> extents = files.content(find(files.tree(Progress.NONE), "frag.bin"), "").extents();
        assertEquals(List.of((long) Volumes.cluster(10), (long) Volumes.cluster(12), (long) Volumes.cluster(11)),
                extents.stream().map(Extent::imageByte).toList());
        assertEquals(List.of(4096L, 4096L, 808L), extents.stream().map(Extent::length).toList());
    }

    @Test
    void aDeletedSetIsProvedByItsChecksum() {
        Files files = files(Volumes.open());
        FileTree tree = files.tree(Progress.NONE);
        int gone = find(tree, "gone.txt");
        assertEquals("FB60E962", crc(files.content(gone, "")));
        assertTrue(tree.entry(gone).remarks().get(0).contains("checksum of its entries holds"), tree.entry(gone).remarks().toString());
        assertTrue(files.content(gone, "").doubts().get(0).contains("none of its clusters"));
    }

    @Test
    void aDeletedFileWhoseClusterWasGivenAwayIsLost() {
        byte[] image = Volumes.filled();
        image[0x20001] |= 0x20;
        Files files = files(DiskFile.of(image, 512));
        Content content = files.content(find(files.tree(Progress.NONE), "gone.txt"), "");
        assertEquals(FileState.LOST, content.state());
    }

    /** Bytes beyond ValidDataLength read as zero. */
    @Test
    void whatWasNeverWrittenIsZero() {
        byte[] image = Volumes.filled();
        image[0x23080 + 8] = 5;
        Volumes.fixSet(image, 0x23060);
        Files files = files(DiskFile.of(image, 512));
        Content content = files.content(find(files.tree(Progress.NONE), "hello.txt"), "");
        byte[] bytes = new byte[21];
        assertEquals(List.of(), content.read(0, bytes, 0, 21));
        assertEquals("Hello" + "\0".repeat(16), new String(bytes, java.nio.charset.StandardCharsets.US_ASCII));
    }

    @Test
    void statesFollowWhatWasRead() {
        DiskFile image = Volumes.open().lose(Volumes.cluster(8) / 512, 8).lose(Volumes.cluster(6) / 512, 1);
        Files files = files(image);
        FileTree tree = files.tree(Progress.NONE);
        assertEquals(FileState.DAMAGED, files.content(find(tree, "A Long File Name.bin"), "").state());
        assertEquals(FileState.LOST, files.content(find(tree, "hello.txt"), "").state());
        assertEquals(FileState.COMPLETE, files.content(find(tree, "frag.bin"), "").state());
    }

    /** The FAT is unread: contiguous files are known fully, a chain is assumed to go on and that is said. */
    @Test
    void withoutTheFatContiguousFilesAreKnown() {
        Files files = files(Volumes.open().lose(128, 8));
        FileTree tree = files.tree(Progress.NONE);
        assertEquals("FB60E962", crc(files.content(find(tree, "hello.txt"), "")));
        assertEquals(List.of(), files.content(find(tree, "A Long File Name.bin"), "").doubts());
        assertTrue(files.content(find(tree, "frag.bin"), "").doubts().get(0).startsWith("An assumption"));
        assertFalse(tree.unreadMetadata().isEmpty());
    }

    @Test
    void allocationFollowsTheBitmap() {
        Allocation allocation = Volumes.volume(Volumes.open()).capability(Allocation.class).orElseThrow();
        assertEquals(256 + 13 * 8, allocation.used().count());
        assertEquals((992 - 13) * 8, allocation.free().count());
        assertTrue(allocation.unknown().isEmpty());
        Allocation.Owner owner = allocation.owners(Volumes.cluster(11) / 512, Progress.NONE).get(0);
        assertEquals("frag.bin", owner.owner());
        assertEquals(8192, owner.offset());
        assertEquals("FAT", allocation.owners(130, Progress.NONE).get(0).owner());
        Allocation blind = Volumes.volume(Volumes.open().lose(256, 1)).capability(Allocation.class).orElseThrow();
        assertTrue(blind.unknown().containsAll(new sectorglass.image.SectorRange(264, 8)), "zero filler must not become free");
        assertTrue(blind.free().isEmpty());
    }

    @Test
    void metadataIsReadFirst() {
        List<ReadOrder.Stage> stages = Volumes.volume(Volumes.open()).capability(ReadOrder.class).orElseThrow().stages(Progress.NONE);
        assertEquals(List.of(ReadOrder.Kind.HEADS, ReadOrder.Kind.FILE_TABLE, ReadOrder.Kind.FOLDERS),
                stages.stream().map(ReadOrder.Stage::kind).toList());
        assertTrue(stages.get(2).sectors().contains(Volumes.cluster(13) / 512) && stages.get(2).complete());
    }

    /** The entry of Sub is gone: the folder and its file are found by their clusters; a chain and a run that nothing owns are listed too. */
    @Test
    void clustersWithoutOwnerAreListedAsLost() {
        byte[] image = Volumes.filled();
        for (int slot = 0; slot < 3; slot++) {
            image[0x23200 + slot * 32] &= 0x7F;
            image[0x23140 + slot * 32] &= 0x7F;
        }
        // Sub and frag.bin are deleted, that of Sub is damaged, but the bitmap still holds their clusters, 10 to 14; 20 and 21 belong to nothing
        image[0x23202] ^= 1;
        image[0x20000 + 2] |= 0x0C;
        Files files = files(DiskFile.of(image, 512));
        FileTree tree = files.tree(Progress.NONE);
        assertEquals(Set.of("Without a folder", "cluster 13", "été note.txt", "cluster 10", "cluster 20"), lost(tree).keySet());
        Content chain = files.content(lost(tree).get("cluster 10"), "");
        assertEquals(List.of(10L, 12L, 11L), chain.extents().stream().map(e -> (e.imageByte() - 0x20000) / 4096 + 2).toList());
        Content run = files.content(lost(tree).get("cluster 20"), "");
        assertEquals(8192, run.bytes());
        assertTrue(run.doubts().toString().contains("assumption"), run.doubts().toString());
        assertEquals("279EB882", crc(files.content(lost(tree).get("été note.txt"), "")));
        assertTrue(files(Volumes.open()).tree(Progress.NONE).withoutFolder() < 0);
    }

    /** What was not read of the bitmap or of directories is no proof that something is lost. */
    @Test
    void whatWasNotReadIsNotCalledLost() {
        DiskFile image = Volumes.open().lose(0x23200 / 512, 1);
        FileTree tree = files(image).tree(Progress.NONE);
        assertTrue(tree.withoutFolder() >= 0);
        lost(tree).forEach((name, entry) -> {
            if (name.startsWith("cluster ")) {
                assertTrue(tree.entry(entry).remarks().toString().contains("not read"), tree.entry(entry).remarks().toString());
            }
        });
        DiskFile noBitmap = Volumes.open().lose(0x20000 / 512, 8);
        assertTrue(files(noBitmap).tree(Progress.NONE).withoutFolder() < 0);
    }

    /** A folder of three contiguous clusters: a set that crosses into the second one is one structure. */
    @Test
    void aSetThatCrossesClustersOfAFolderIsOneStructure() {
        byte[] image = Volumes.filled();
        byte[] set = java.util.Arrays.copyOfRange(image, 0x2B000, 0x2B060);
        Volumes.put(image, 0x20000 + 2, new byte[] {0x1C});
        for (int cluster = 20; cluster <= 22; cluster++) {
            Volumes.put(image, Volumes.cluster(cluster), new byte[4096]);
        }
        for (int i = 0; i < 100; i++) {
            // the first character counts; the hash does not matter here
            set[64 + 2] = (byte) (0x30 + i % 64);
            Volumes.put(image, Volumes.cluster(20) + i * 96, set);
        }
        Volumes.put(image, 0x23200 + 32 + 8, new byte[] {0, 0x30});
        Volumes.put(image, 0x23200 + 32 + 20, new byte[] {20});
        Volumes.put(image, 0x23200 + 32 + 24, new byte[] {0, 0x30});
        Volumes.fixSet(image, 0x23200);
        ExfatVolume volume = Volumes.volume(DiskFile.of(image, 512));
        long crossing = Volumes.cluster(20) + 42 * 96;
        var structure = volume.structureAt(Volumes.cluster(21) + 5).orElseThrow();
        assertEquals("directory entry set", structure.name());
        assertEquals(crossing, structure.range().start());
        assertEquals(96, structure.range().length());
    }
}
