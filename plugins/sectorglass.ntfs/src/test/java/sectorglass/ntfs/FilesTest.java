package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.ReadOrder;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Corpus;
import sectorglass.testkit.Tool;

class FilesTest {
    @TempDir
    static Path folder;

    private static Files files(NtfsVolume volume) {
        return volume.capability(Files.class).orElseThrow();
    }

    static byte[] bytes(Content content) {
        assertTrue(content.missing().isEmpty(), content.missing().toString());
        byte[] all = new byte[(int) content.bytes()];
        assertTrue(content.read(0, all, 0, all.length).isEmpty());
        return all;
    }

    private static Content content(NtfsVolume volume, String path, String stream) {
        FileTree tree = files(volume).tree(Progress.NONE);
        Content content = files(volume).content(tree.find(path).orElseThrow(() -> new AssertionError("not found: " + path)), stream);
        assertNotNull(content, path + ":" + stream);
        return content;
    }

    @Test
    void everyStreamOfAMadeVolumeComesBackByteForByte() throws IOException {
        NtfsVolume volume = Volumes.open(MemoryImage.of(Volumes.withFiles(folder)));
        for (String[] one : new String[][] {{"small.txt", "", "small.txt"}, {"small.txt", "note", "small.txt"}, {"data.bin", "", "data.bin"},
            {"data.bin", "extra", "ads.bin"}, {"one.bin", "", "one.bin"}, {"two.bin", "", "two.bin"}}) {
            assertArrayEquals(java.nio.file.Files.readAllBytes(folder.resolve(one[2])), bytes(content(volume, one[0], one[1])), one[0]);
        }
        FileTree tree = files(volume).tree(Progress.NONE);
        var entry = tree.entry(tree.find("data.bin").orElseThrow());
        assertEquals("2024-01-02T03:04:05Z", entry.times().modified().toString());
        assertEquals(List.of("", "extra"), entry.streams().stream().map(s -> s.name()).toList());
        assertEquals(65, entry.number());
        assertEquals(-1, tree.withoutFolder());
        assertTrue(tree.unreadMetadata().isEmpty());
    }

    @Test
    void namesAreThoseOfNtfsls() throws IOException {
        Path image = Volumes.withFiles(folder);
        String listed = Tool.run("ntfsls", "-f", "-a", "-s", image.toString()).ok();
        FileTree tree = files(Volumes.open(MemoryImage.of(image))).tree(Progress.NONE);
        TreeSet<String> ours = new TreeSet<>();
        for (int i = 0; i < tree.childCount(tree.root()); i++) {
            ours.add(tree.name(tree.child(tree.root(), i)));
        }
        for (String name : ours) {
            assertTrue(listed.contains(name), name + " is not in\n" + listed);
        }
        assertTrue(ours.containsAll(List.of("$MFT", "$Extend", "small.txt", "two.bin")), ours.toString());
    }

    /** Sectors 69640–69647, 69832 and 69879 unread: shares computed by hand from the runs. */
    @Test
    void partlyUnreadFilesAreCountedToTheByte() throws IOException {
        SectorRanges unread = SectorRanges.of(List.of(new SectorRange(69640, 8), new SectorRange(69832, 1), new SectorRange(69879, 1)));
        NtfsVolume volume = Volumes.open(MemoryImage.of(Volumes.withFiles(folder)).without(unread));
        assertEquals(98304, content(volume, "data.bin", "").readBytes());
        assertEquals(10240, content(volume, "data.bin", "extra").readBytes());
        assertEquals(3584, content(volume, "one.bin", "").readBytes());
        assertEquals(19968, content(volume, "two.bin", "").readBytes());
        assertEquals(210, content(volume, "small.txt", "note").readBytes());
        assertEquals(FileState.DAMAGED, content(volume, "two.bin", "").state());
        assertEquals(FileState.COMPLETE, content(volume, "small.txt", "").state());
    }

    @Test
    void aLostRecordIsStillListedFromItsFoldersIndex() throws IOException {
        MemoryImage image = MemoryImage.of(Volumes.withFiles(folder));
        for (MemoryImage damaged : List.of(image.without(SectorRanges.of((16384 + 66 * 1024) / 512, 2)),
                image.with(16384 + 66 * 1024, new int[1024]))) {
            NtfsVolume volume = Volumes.open(damaged);
            Content lost = content(volume, "one.bin", "");
            assertEquals(FileState.LOST, lost.state());
            assertEquals(4096, lost.bytes());
        }
        NtfsVolume volume = Volumes.open(image.without(SectorRanges.of((16384 + 66 * 1024) / 512, 2)));
        assertEquals(SectorRanges.of(164, 2), files(volume).tree(Progress.NONE).unreadMetadata());
    }

    @Test
    void aLostRootStillHoldsItsChildren() throws IOException {
        NtfsVolume volume = Volumes.open(MemoryImage.of(Volumes.withFiles(folder)).without(SectorRanges.of(32 + 10, 2)));
        assertEquals(FileState.COMPLETE, content(volume, "two.bin", "").state());
    }

    @Test
    void usedClustersAreThoseOfTheTools() throws IOException {
        Path file = Volumes.withFiles(folder);
        NtfsVolume volume = Volumes.open(MemoryImage.of(file));
        Allocation allocation = volume.capability(Allocation.class).orElseThrow();
        assertEquals(SectorRanges.of(List.of(new SectorRange(0, 24), new SectorRange(32, 152), new SectorRange(2051 * 8, 102 * 8),
                new SectorRange(8191 * 8, 547 * 8))), allocation.used());
        String info = Tool.run("ntfsinfo", "-f", "-m", file.toString()).ok();
        assertTrue(info.contains("Free Clusters: " + allocation.free().count() / 8 + " "), info);
        assertTrue(allocation.unknown().isEmpty());
        List<Allocation.Owner> owners = allocation.owners(new SectorRange(8704 * 8 + 3, 1), Progress.NONE);
        assertEquals(1, owners.size(), owners.toString());
        assertEquals("data.bin", owners.get(0).owner());
        assertEquals(3 * 512, owners.get(0).offset());
        List<String> all = new ArrayList<>();
        allocation.owners(new SectorRange(8704 * 8, 37 * 8), Progress.NONE).forEach(o -> all.add(o.owner() + ":" + o.stream()));
        assertEquals(List.of("data.bin:", "one.bin:", "two.bin:", "data.bin:extra"), all);
        assertEquals("$Bitmap", allocation.owners(2055 * 8, Progress.NONE).get(0).owner());
        assertTrue(allocation.used().minus(allocation.metadata()).count() <= 8 * (25 + 1 + 5 + 3 + 4), "files only");
    }

    @Test
    void unreadPartsOfTheBitmapAreUnknown() throws IOException {
        NtfsVolume volume = Volumes.open(MemoryImage.of(Volumes.withFiles(folder)).without(SectorRanges.of(2055 * 8 + 1, 1)));
        Allocation allocation = volume.capability(Allocation.class).orElseThrow();
        assertEquals(SectorRanges.of(4096 * 8, 4096 * 8), allocation.unknown());
    }

    @Test
    void readOrderBeginsWithTheHeadsAndTheTable() throws IOException {
        List<ReadOrder.Stage> stages = Volumes.open(MemoryImage.of(Volumes.withFiles(folder))).capability(ReadOrder.class).orElseThrow()
                .stages(Progress.NONE);
        assertEquals(SectorRanges.of(List.of(new SectorRange(0, 1), new SectorRange(131071, 1))), stages.get(0).sectors());
        assertTrue(stages.get(1).sectors().contains(32) && stages.get(1).sectors().contains(8191 * 8));
        assertTrue(stages.get(2).sectors().containsAll(new SectorRange(32, 152)) && stages.get(2).sectors().contains(2055 * 8));
        assertTrue(stages.get(3).sectors().contains(2053 * 8));
    }

    /** The folder's README names what the volume holds. */
    @Test
    void volumeWithSmallClustersIsReadWhole() {
        Path packed = Corpus.files("ntfs-volumes", ".xz").get(0);
        NtfsVolume volume = Volumes.open(MemoryImage.of(Corpus.unpack(packed, folder)));
        assertEquals(0, content(volume, "empty-file", "").bytes());
        assertEquals("12345", new String(bytes(content(volume, "file-with-12345", "")), StandardCharsets.US_ASCII));
        assertEquals("12345".repeat(200), new String(bytes(content(volume, "1000-bytes-file", "")), StandardCharsets.US_ASCII));
        byte[] sparse = bytes(content(volume, "sparse-file", ""));
        assertEquals(500_005, sparse.length);
        byte[] expected = new byte[500_005];
        System.arraycopy("12345".getBytes(StandardCharsets.US_ASCII), 0, expected, 0, 5);
        System.arraycopy("11111".getBytes(StandardCharsets.US_ASCII), 0, expected, 500_000, 5);
        assertArrayEquals(expected, sparse);
        FileTree tree = files(volume).tree(Progress.NONE);
        int subdirs = tree.find("many_subdirs").orElseThrow();
        assertEquals(512, tree.childCount(subdirs));
        TreeSet<Integer> numbers = new TreeSet<>();
        for (int i = 0; i < 512; i++) {
            assertTrue(tree.folder(tree.child(subdirs, i)));
            numbers.add(Integer.valueOf(tree.name(tree.child(subdirs, i))));
        }
        assertEquals(1, numbers.first());
        assertEquals(512, numbers.last());
    }
}
