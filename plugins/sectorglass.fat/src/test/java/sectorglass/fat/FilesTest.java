package sectorglass.fat;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.disk.Allocation;
import sectorglass.disk.CodePage;
import sectorglass.disk.Content;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.ReadOrder;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;

/** The folder tree and contents of volumes filled by mtools 4.0.32. */
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

    private static byte[] read(Content content) {
        byte[] bytes = new byte[(int) content.bytes()];
        assertEquals(List.of(), content.read(0, bytes, 0, bytes.length));
        return bytes;
    }

    private static String crc(byte[] bytes) {
        CRC32 crc = new CRC32();
        crc.update(bytes);
        return String.format("%08X", crc.getValue());
    }

    /** CRC-32 of the files that mcopy copied in. */
    @ParameterizedTest
    @ValueSource(strings = {"f12", "f16", "f32", "f12k", "f16k", "f32k"})
    void namesSizesTimesAndContentsAreThoseCopiedIn(String name) {
        Files files = files(Volumes.open(name));
        FileTree tree = files.tree(Progress.NONE);
        assertEquals(List.of("", "SUBDIR", "SUBDIR/deeper note.txt", "HELLO.TXT", "A Long File Name.bin", "EMPTY.DAT", "?ONE.TXT deleted"),
                paths(tree));
        assertEquals("FB60E962", crc(read(files.content(find(tree, "HELLO.TXT"), ""))));
        assertEquals("A4F08D8E", crc(read(files.content(find(tree, "A Long File Name.bin"), ""))));
        assertEquals("279EB882", crc(read(files.content(find(tree, "SUBDIR/deeper note.txt"), ""))));
        assertEquals(0, files.content(find(tree, "EMPTY.DAT"), "").bytes());
        assertEquals("2020-02-29T12:34:56", tree.modified(find(tree, "HELLO.TXT")).toString());
        assertTrue(tree.unreadMetadata().isEmpty() && tree.withoutFolder() < 0);
    }

    /** mshowfat gives the clusters of a file: f12 4-13. */
    @Test
    void extentsAgreeWithMshowfat() {
        FatVolume volume = Volumes.volume(Volumes.open("f12"));
        Files files = volume.capability(Files.class).orElseThrow();
        Content content = files.content(find(files.tree(Progress.NONE), "A Long File Name.bin"), "");
        Tool.require("mshowfat");
        String shown = Tool.run("mshowfat", "-i", Volumes.make("f12").toString(), "::/A Long File Name.bin").ok();
        long first = volume.found().geometry().clusterAt(content.extents().get(0).imageByte());
        assertEquals(1, content.extents().size());
        assertTrue(shown.contains("<" + first + "-" + (first + 9) + ">"), shown);
    }

    @Test
    void aDeletedFileIsAssumedToBeOneRun() {
        DiskFile image = Volumes.open("f32");
        Files files = files(image);
        FileTree tree = files.tree(Progress.NONE);
        int gone = find(tree, "?ONE.TXT");
        assertTrue(tree.deleted(gone));
        Content content = files.content(gone, "");
        assertEquals("FB60E962", crc(read(content)));
        assertTrue(content.doubts().get(0).contains("assumption"), content.doubts().toString());
        FileEntry entry = tree.entry(gone);
        assertTrue(entry.remarks().get(0).contains("first character"), entry.remarks().toString());
    }

    /** The long name before a deleted entry gives the first character back: its checksum fits one byte only. */
    @Test
    void theNameOfADeletedFileComesFromItsLongName() {
        DiskFile image = Volumes.open("f32");
        for (int slot = 3; slot <= 5; slot++) {
            image.plant(0xA1800 + slot * 32, 0xE5);
        }
        FileTree tree = files(image).tree(Progress.NONE);
        assertTrue(tree.deleted(find(tree, "A Long File Name.bin")));
    }

    @Test
    void aDeletedFileWhoseClusterWasGivenAwayIsLost() {
        DiskFile image = Volumes.open("f32").plant32(16384 + 64, 0x0FFFFFFF).plant32(16384 + 630 * 512 + 64, 0x0FFFFFFF);
        Files files = files(image);
        Content content = files.content(find(files.tree(Progress.NONE), "?ONE.TXT"), "");
        assertEquals(FileState.LOST, content.state());
        assertTrue(content.doubts().get(0).contains("belongs to something else"));
    }

    @Test
    void statesFollowWhatWasRead() {
        // cluster 7 of "A Long File Name.bin" and the only cluster of HELLO.TXT
        long base = 1292 - 2;
        Files files = files(Volumes.open("f32").lose(base + 7, 1).lose(base + 4, 1));
        FileTree tree = files.tree(Progress.NONE);
        assertEquals(FileState.DAMAGED, files.content(find(tree, "A Long File Name.bin"), "").state());
        assertEquals(5000 - 512, files.content(find(tree, "A Long File Name.bin"), "").readBytes());
        assertEquals(FileState.LOST, files.content(find(tree, "HELLO.TXT"), "").state());
        assertEquals(FileState.COMPLETE, files.content(find(tree, "SUBDIR/deeper note.txt"), "").state());
    }

    /** Both copies unread: the file is assumed to go on without a gap, and that is said. */
    @Test
    void aChainThroughUnreadEntriesIsAnAssumption() {
        Files files = files(Volumes.open("f32").lose(32, 1).lose(32 + 630, 1));
        FileTree tree = files.tree(Progress.NONE);
        Content content = files.content(find(tree, "A Long File Name.bin"), "");
        assertEquals("A4F08D8E", crc(read(content)));
        assertTrue(content.doubts().get(0).startsWith("An assumption"), content.doubts().toString());
        assertFalse(tree.unreadMetadata().isEmpty());
    }

    @Test
    void oneReadCopyOfTheTableIsEnough() {
        Files files = files(Volumes.open("f32").lose(32, 630));
        Content content = files.content(find(files.tree(Progress.NONE), "A Long File Name.bin"), "");
        assertEquals("A4F08D8E", crc(read(content)));
        assertEquals(List.of(), content.doubts());
    }

    /** The root directory is unread: folder and chains are listed without a folder, not as lost. */
    @Test
    void whatAnUnreadRootHeldIsListedWithoutAFolder() {
        Files files = files(Volumes.open("f32").lose(1292, 1));
        FileTree tree = files.tree(Progress.NONE);
        assertTrue(tree.withoutFolder() >= 0);
        assertEquals(SectorRanges.of(1292, 1), tree.unreadMetadata());
        assertEquals("279EB882", crc(read(files.content(find(tree, "Without a folder/cluster 3/deeper note.txt"), ""))));
        byte[] chain = read(files.content(find(tree, "Without a folder/cluster 5"), ""));
        assertEquals(5120, chain.length);
    }

    @ParameterizedTest
    @CsvSource({"f12,512", "f16,512", "f32,512", "f32k,4096"})
    void allocationCountsLikeFsck(String name, int size) {
        FatVolume volume = Volumes.volume(Volumes.open(name));
        Allocation allocation = volume.capability(Allocation.class).orElseThrow();
        Geometry geometry = volume.found().geometry();
        long clusterSectors = geometry.clusterBytes() / size;
        long used = (allocation.used().count() - geometry.firstData()) / clusterSectors;
        assertEquals(volume.info().usedBytes() / geometry.clusterBytes(), used);
        assertEquals(geometry.clusters() - used, allocation.free().count() / clusterSectors);
        assertTrue(allocation.unknown().isEmpty());
        assertTrue(allocation.used().intersect(allocation.free()).isEmpty());
    }

    @Test
    void aSectorNamesItsOwner() {
        Allocation allocation = Volumes.volume(Volumes.open("f32")).capability(Allocation.class).orElseThrow();
        Allocation.Owner owner = allocation.owners(1290 + 7, Progress.NONE).get(0);
        assertEquals("A Long File Name.bin", owner.owner());
        assertEquals(2 * 512, owner.offset());
        assertEquals("FAT 1", allocation.owners(40, Progress.NONE).get(0).owner());
        assertEquals("directory", allocation.owners(1292, Progress.NONE).get(0).owner());
        assertEquals(List.of(), allocation.owners(5000, Progress.NONE));
    }

    @Test
    void metadataIsReadFirst() {
        List<ReadOrder.Stage> stages = Volumes.volume(Volumes.open("f32").lose(1293, 1)).capability(ReadOrder.class).orElseThrow()
                .stages(Progress.NONE);
        assertEquals(List.of(ReadOrder.Kind.HEADS, ReadOrder.Kind.FILE_TABLE, ReadOrder.Kind.FOLDERS),
                stages.stream().map(ReadOrder.Stage::kind).toList());
        assertTrue(stages.get(0).sectors().containsAll(new SectorRange(0, 32)));
        assertTrue(stages.get(2).sectors().contains(1292) && stages.get(2).sectors().contains(1293));
        assertFalse(stages.get(2).complete());
    }

    /** A ring of folders must not be walked for ever. */
    @Test
    void aFolderThatHoldsItselfIsListedOnce() {
        DiskFile image = Volumes.open("f32");
        byte[] entry = Volumes.open("f32").window(0xA1800 + 32, 32).raw(0, 32);
        for (int i = 0; i < 32; i++) {
            image.plant(0xA1A00 + 5 * 32 + i, entry[i] & 0xFF);
        }
        FileTree tree = files(image).tree(Progress.NONE);
        assertArrayEquals(new Object[] {1}, new Object[] {(int) paths(tree).stream().filter(p -> p.endsWith("deeper note.txt")).count()});
    }

    /** A folder of two clusters that lie apart: a byte of the second one belongs to an entry of that folder. */
    @Test
    void aLaterClusterOfAFolderIsExplainedByItsFolder() throws java.io.IOException {
        Tool.require("mkfs.fat", "mmd", "mcopy", "mshowfat");
        java.nio.file.Path image = java.nio.file.Files.createTempFile("folder", ".img");
        java.nio.file.Path file = java.nio.file.Files.writeString(java.nio.file.Files.createTempFile("some", ".txt"), "text");
        Tool.run("mkfs.fat", "-C", "-F", "12", "-s", "1", "--invariant", delete(image).toString(), "1440").ok();
        Tool.run("mmd", "-i", image.toString(), "::/MANY").ok();
        for (int i = 0; i < 30; i++) {
            Tool.run("mcopy", "-i", image.toString(), file.toString(), "::/MANY/F" + i + ".TXT").ok();
        }
        String shown = Tool.run("mshowfat", "-i", image.toString(), "::/MANY").ok();
        java.util.regex.Matcher clusters = java.util.regex.Pattern.compile("<(\\d+)>").matcher(shown);
        assertTrue(clusters.find() && clusters.find(), shown);
        FatVolume volume = Volumes.volume(DiskFile.of(image));
        long at = volume.found().geometry().clusterByte(Long.parseLong(clusters.group(1)));
        var structure = volume.structureAt(at + 3 * 32 + 5).orElseThrow();
        assertEquals("directory entry", structure.name());
        assertEquals(at + 3 * 32, structure.range().start());
        assertEquals(32, structure.range().length());
        assertTrue(volume.structureAt(volume.found().geometry().clusterByte(4)).isEmpty(), "a cluster of a file is no directory");
    }

    private static java.nio.file.Path delete(java.nio.file.Path file) throws java.io.IOException {
        java.nio.file.Files.delete(file);
        return file;
    }

    /** Code page 437 has 0x9B as the cent sign, 850 as o with stroke, 866 as the capital Yeru (published tables of these code pages). */
    @Test
    void shortNamesAreShownInTheCodePageThatWasChosen() {
        DiskFile image = Volumes.open("f32").plant(0xA1800 + 64, 0x9B);
        try {
            FileTree tree = files(image).tree(Progress.NONE);
            find(tree, "\u00F8ELLO.TXT");
            assertTrue(tree.remarks().toString().contains("850"), tree.remarks().toString());
            assertTrue(CodePage.choose("437"));
            find(files(image).tree(Progress.NONE), "\u00A2ELLO.TXT");
            assertTrue(CodePage.choose("866"));
            find(files(image).tree(Progress.NONE), "\u042BELLO.TXT");
            assertTrue(!CodePage.choose("no such page") && !CodePage.choose("99999"));
        } finally {
            CodePage.choose("850");
        }
        assertTrue(files(Volumes.open("f32")).tree(Progress.NONE).remarks().isEmpty());
    }
}
