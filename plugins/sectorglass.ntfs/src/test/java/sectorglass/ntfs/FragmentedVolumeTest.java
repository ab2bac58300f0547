package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Level;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.verify.Finding;
import sectorglass.verify.Severity;

/**
 * Thousands of files on clusters of 512 bytes, every second one deleted, then large files in the gaps: attribute lists, extension
 * records, a table in pieces. Whole and partly unread.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class FragmentedVolumeTest {
    private static final int FILES = 3000;

    @TempDir
    static Path folder;

    private final Map<String, byte[]> written = new LinkedHashMap<>();
    private Path file;
    private MemoryImage image;
    private NtfsVolume volume;

    @BeforeAll
    void write() throws IOException {
        Tool.require("mkntfs", "ntfs-3g");
        file = folder.resolve("fragmented.img");
        Volumes.make(file, 12 << 20, 512, 512);
        try (Mounted mounted = new Mounted(file)) {
            for (int i = 0; i < FILES; i++) {
                byte[] bytes = ("file " + i + " ").repeat(150).substring(0, 1024).getBytes(StandardCharsets.US_ASCII);
                String name = "name of a file with number " + i;
                mounted.write(name, bytes);
                written.put(name, bytes);
            }
            fillUp(mounted);
            for (int i = 0; i < FILES; i += 2) {
                String name = "name of a file with number " + i;
                Files.delete(mounted.path(name));
                written.remove(name);
            }
            Files.createDirectory(mounted.path("large"));
            for (int i = 0; i < 3; i++) {
                byte[] bytes = Volumes.hashes(7000 + i);
                mounted.write("large/in gaps " + i, bytes);
                written.put("large/in gaps " + i, bytes);
            }
        }
        image = MemoryImage.of(file);
        volume = Volumes.open(image);
    }

    /** Takes all free clusters, so that later files must go into gaps. */
    private void fillUp(Mounted mounted) throws IOException {
        byte[] bytes = Volumes.steps(64 << 10, 7);
        for (int i = 0; i < 400; i++) {
            String name = "filler " + i;
            try {
                mounted.write(name, bytes);
                written.put(name, bytes);
            } catch (IOException full) {
                Files.deleteIfExists(mounted.path(name));
                return;
            }
        }
    }

    private static FileTree tree(NtfsVolume of) {
        return of.capability(sectorglass.disk.Files.class).orElseThrow().tree(Progress.NONE);
    }

    private static Content content(NtfsVolume of, String path) {
        return of.capability(sectorglass.disk.Files.class).orElseThrow().content(tree(of).find(path)
                .orElseThrow(() -> new AssertionError("not found: " + path)), "");
    }

    @Test
    void filesInManyPiecesComeBackByteForByte() {
        int pieces = 0;
        for (Map.Entry<String, byte[]> one : written.entrySet()) {
            Content content = content(volume, one.getKey());
            assertArrayEquals(one.getValue(), FilesTest.bytes(content), one.getKey());
            pieces = Math.max(pieces, content.extents().size());
        }
        assertTrue(pieces > 50, "most pieces of one file: " + pieces);
    }

    @Test
    void someFileNeedsAnAttributeList() {
        List<Long> withList = new ArrayList<>();
        long[] extensions = {0};
        volume.table().scan(0, volume.table().records(), (view, address) -> {
            if (view.usable() && view.inUse()) {
                extensions[0] += view.isBase() ? 0 : 1;
                view.rewind();
                while (view.nextAttribute()) {
                    if (view.type() == AttributeType.ATTRIBUTE_LIST) {
                        withList.add(view.number);
                    }
                }
            }
        }, Progress.NONE);
        assertTrue(!withList.isEmpty() && extensions[0] > 0, withList + " lists, " + extensions[0] + " extensions");
    }

    @Test
    void theVolumeIsSoundHereAndForTheTools() {
        List<Finding> worse = Volumes.verify(image, Level.FULL).listed().stream().filter(f -> f.severity() != Severity.COSMETIC).toList();
        assertEquals("", String.join("\n", worse.stream().map(f -> f.check() + ": " + f.what()).toList()));
        Tool.run("ntfsresize", "-f", "-i", file.toString()).ok();
        String info = Tool.run("ntfsinfo", "-f", "-m", file.toString()).ok();
        var allocation = volume.capability(sectorglass.disk.Allocation.class).orElseThrow();
        assertTrue(info.contains("Free Clusters: " + allocation.free().count() + " "), info);
    }

    /** With any sectors unread, each file is byte-identical or its missing ranges are exactly those that stand in unread sectors. */
    @Test
    void partlyUnreadEveryFileIsWholeOrExactlyDescribed() {
        Random random = new Random(9);
        List<SectorRange> some = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            some.add(new SectorRange(1 + random.nextInt((int) image.sectors() - 40), 1 + random.nextInt(30)));
        }
        SectorRanges unread = SectorRanges.of(some);
        NtfsVolume partly = Volumes.open(image.without(unread));
        FileTree tree = tree(partly);
        int damaged = 0;
        int gone = 0;
        for (Map.Entry<String, byte[]> one : written.entrySet()) {
            if (tree.find(one.getKey()).isEmpty()) {
                gone++;
                assertTrue(!tree.unreadMetadata().isEmpty(), "nothing says why " + one.getKey() + " is missing");
                continue;
            }
            Content content = content(partly, one.getKey());
            byte[] expected = one.getValue();
            if (content.bytes() != expected.length) {
                assertTrue(content.state() == FileState.UNKNOWN || content.state() == FileState.LOST, one.getKey() + " " + content.state());
                continue;
            }
            byte[] bytes = new byte[expected.length];
            List<ByteRange> missing = content.read(0, bytes, 0, bytes.length);
            assertEquals(content.missing(), missing, one.getKey());
            byte[] known = expected.clone();
            missing.forEach(r -> java.util.Arrays.fill(known, (int) r.start(), (int) r.end(), (byte) 0));
            assertArrayEquals(known, bytes, one.getKey());
            damaged += missing.isEmpty() ? 0 : 1;
            if (!missing.isEmpty() && content.extents().stream().noneMatch(e -> e.kind() == Extent.Kind.UNKNOWN)) {
                assertTrue(unread.intersect(Extent.sectors(content.extents(), 512)).count() > 0, one.getKey());
            }
        }
        assertTrue(damaged > 0, "no file was touched");
        assertTrue(gone < written.size() / 10, gone + " files are not listed at all");
    }
}
