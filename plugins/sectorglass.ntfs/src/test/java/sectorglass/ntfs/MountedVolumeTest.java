package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Content;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Level;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.verify.Finding;

/** A volume written by ntfs-3g through FUSE: folders, a large index, sparse and compressed files, streams, hard links, deletions. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class MountedVolumeTest {
    @TempDir
    static Path folder;

    private final Map<String, byte[]> written = new LinkedHashMap<>();
    private Path file;
    private MemoryImage image;
    private NtfsVolume volume;

    @BeforeAll
    void write() throws IOException {
        Tool.require("mkntfs", "ntfs-3g");
        file = folder.resolve("F2.img");
        Volumes.make(file, 64 << 20, 512, 4096);
        try (Mounted mounted = new Mounted(file)) {
            fill(mounted);
        }
        image = MemoryImage.of(file);
        volume = Volumes.open(image);
    }

    private void fill(Mounted mounted) throws IOException {
        Files.createDirectory(mounted.path("docs"));
        Files.createDirectory(mounted.path("big"));
        Files.createDirectory(mounted.path("comp"));
        put(mounted, "docs/small.txt", "The quick brown fox.\n".repeat(10).getBytes(StandardCharsets.US_ASCII));
        put(mounted, "docs/data.bin", Volumes.hashes(3200));
        Files.createLink(mounted.path("docs/hardlink.bin"), mounted.path("docs/data.bin"));
        written.put("docs/hardlink.bin", written.get("docs/data.bin"));
        for (int i = 1; i <= 300; i++) {
            put(mounted, String.format("big/entry-number-%03d.txt", i), ("file " + i + "\n").getBytes(StandardCharsets.US_ASCII));
        }
        byte[] sparse = new byte[1 << 20];
        try (RandomAccessFile out = new RandomAccessFile(mounted.path("docs/sparse.bin").toFile(), "rw")) {
            out.setLength(sparse.length);
            out.seek(524288);
            out.write("HELLO".getBytes(StandardCharsets.US_ASCII));
            out.seek(sparse.length - 3);
            out.write("END".getBytes(StandardCharsets.US_ASCII));
        }
        System.arraycopy("HELLO".getBytes(StandardCharsets.US_ASCII), 0, sparse, 524288, 5);
        System.arraycopy("END".getBytes(StandardCharsets.US_ASCII), 0, sparse, sparse.length - 3, 3);
        written.put("docs/sparse.bin", sparse);
        mounted.write("docs/small.txt:extra", Volumes.steps(10240, 7));
        Tool.run("setfattr", "-n", "system.ntfs_attrib_be", "-v", "0x00000800", mounted.path("comp").toString()).ok();
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 4000; i++) {
            text.append(String.format("line %06d the same text again and again\n", i));
        }
        put(mounted, "comp/text.txt", text.toString().getBytes(StandardCharsets.US_ASCII));
        put(mounted, "comp/noise.bin", Volumes.hashes(5000));
        byte[] mixed = new byte[300_000];
        System.arraycopy(Volumes.hashes(2400), 0, mixed, 100_000, 70_000);
        put(mounted, "comp/mixed.bin", mixed);
        mounted.write("docs/deleted.bin", Volumes.steps(20000, 11));
        Files.createDirectory(mounted.path("docs/gone"));
        put(mounted, "größe ☃ 漢字.txt", "name".getBytes(StandardCharsets.US_ASCII));
        Files.delete(mounted.path("docs/deleted.bin"));
        Files.delete(mounted.path("big/entry-number-150.txt"));
        written.remove("big/entry-number-150.txt");
        Files.delete(mounted.path("docs/gone"));
    }

    private void put(Mounted mounted, String name, byte[] bytes) throws IOException {
        mounted.write(name, bytes);
        written.put(name, bytes);
    }

    private FileTree tree() {
        return volume.capability(sectorglass.disk.Files.class).orElseThrow().tree(Progress.NONE);
    }

    private static Content content(NtfsVolume of, String path, String stream) {
        sectorglass.disk.Files files = of.capability(sectorglass.disk.Files.class).orElseThrow();
        int entry = files.tree(Progress.NONE).find(path).orElseThrow(() -> new AssertionError("not found: " + path));
        return files.content(entry, stream);
    }

    @Test
    void everyFileComesBackByteForByte() {
        written.forEach((name, bytes) -> assertArrayEquals(bytes, FilesTest.bytes(content(volume, name, "")), name));
        assertArrayEquals(Volumes.steps(10240, 7), FilesTest.bytes(content(volume, "docs/small.txt", "extra")));
        assertEquals("ae264c6ca4bf9d5a6d64bab8b215c4cc15746731a22abf0fad343404fecba5e4",
                Volumes.hash(FilesTest.bytes(content(volume, "comp/text.txt", ""))));
    }

    @Test
    void contentEqualsThatOfNtfscat() {
        for (String name : List.of("docs/data.bin", "docs/sparse.bin", "comp/text.txt", "comp/mixed.bin")) {
            String sum = Tool.run("sh", "-c", "ntfscat -f '" + file + "' '" + name + "' | sha256sum").ok();
            assertEquals(sum.substring(0, 64), Volumes.hash(FilesTest.bytes(content(volume, name, ""))), name);
        }
    }

    @Test
    void theTreeTellsLinksDeletionsAndStorage() {
        FileTree tree = tree();
        int big = tree.find("big").orElseThrow();
        int live = 0;
        for (int i = 0; i < tree.childCount(big); i++) {
            live += tree.deleted(tree.child(big, i)) ? 0 : 1;
        }
        assertEquals(299, live);
        int data = tree.find("docs/data.bin").orElseThrow();
        assertEquals(2, tree.withNumber(tree.number(data)).size());
        assertEquals(2, tree.entry(data).links());
        int deleted = tree.find("docs/deleted.bin").orElseThrow();
        assertTrue(tree.deleted(deleted));
        assertArrayEquals(Volumes.steps(20000, 11), FilesTest.bytes(content(volume, "docs/deleted.bin", "")));
        assertEquals(List.of(), content(volume, "docs/deleted.bin", "").doubts());
        assertTrue(tree.deleted(tree.find("docs/gone").orElseThrow()) && tree.folder(tree.find("docs/gone").orElseThrow()));
        assertEquals("compressed", tree.entry(tree.find("comp/text.txt").orElseThrow()).streams().get(0).storage());
        assertEquals("sparse", tree.entry(tree.find("docs/sparse.bin").orElseThrow()).streams().get(0).storage());
        assertEquals(-1, tree.withoutFolder(), "every entry has its folder");
    }

    @Test
    void theVolumeIsSound() {
        List<Finding> worse = Volumes.verify(image, Level.FULL).listed().stream()
                .filter(f -> f.severity() != sectorglass.verify.Severity.COSMETIC).toList();
        assertEquals(List.of(), worse);
        Tool.run("ntfsresize", "-f", "-i", file.toString()).ok();
    }

    @Test
    void runsAndUsedClustersAreThoseOfTheTools() {
        String info = Tool.run("ntfsinfo", "-f", "-m", file.toString()).ok();
        var allocation = volume.capability(sectorglass.disk.Allocation.class).orElseThrow();
        assertTrue(info.contains("Free Clusters: " + allocation.free().count() / 8 + " "), info);
        int entry = tree().find("comp/mixed.bin").orElseThrow();
        String runs = Tool.run("ntfscluster", "-f", "-I", "" + tree().number(entry), file.toString()).ok();
        FileRecord record = FileRecord.of(volume.table(), tree().number(entry));
        RunList ours = record.stream(AttributeType.DATA, "").orElseThrow().runs;
        for (int i = 0; i < ours.runs(); i++) {
            if (ours.lcn(i) >= 0) {
                assertTrue(runs.replaceAll("\\s+", " ").contains(ours.vcn(i) + " " + ours.lcn(i) + " " + ours.count(i)),
                        ours.vcn(i) + " " + ours.lcn(i) + " " + ours.count(i) + " is not in\n" + runs);
            }
        }
    }

    /** ntfscat of a name before that entry never ends (ntfs-3g 2022.10.3). */
    @Test
    void aSubNodeThatLeadsToItselfIsFoundAndHarmsNothing() {
        FileRecord big = FileRecord.of(volume.table(), tree().number(tree().find("big").orElseThrow()));
        FileStream blocks = big.stream(AttributeType.INDEX_ALLOCATION, DirectoryIndex.I30).orElseThrow();
        FixedBlock view = new FixedBlock();
        for (int block = 0; block < blocks.real / 4096; block++) {
            StreamPart part = StreamPart.read(image, volume.table().geometry(), blocks.runs, block * 4096L, 4096);
            part.load(view, 0, 4096);
            int entry = 0x18 + (int) view.u32(0x18);
            if (view.s32(0) == FixedBlock.INDX && (view.u16(entry + 12) & DirectoryIndex.SUB_NODE) != 0) {
                long at = part.address(entry + view.u16(entry + 8) - 8);
                NtfsVolume damaged = Volumes.open(image.with(at, block));
                assertTrue(Volumes.verify(image.with(at, block), Level.FULL).listed().stream()
                        .anyMatch(f -> f.check().equals("ntfs.index.tree") && f.where().start() == at));
                assertEquals(tree().size(), damaged.capability(sectorglass.disk.Files.class).orElseThrow().tree(Progress.NONE).size());
                return;
            }
        }
        throw new AssertionError("no block with sub-nodes");
    }

    /** Whichever sector of a compressed unit is unread: what comes out is what went in, but for the ranges that are named. */
    @Test
    void aCompressedFileWithAnUnreadSectorKeepsWhatStandsBeforeIt() {
        FileRecord record = FileRecord.of(volume.table(), tree().number(tree().find("comp/text.txt").orElseThrow()));
        RunList runs = record.stream(AttributeType.DATA, "").orElseThrow().runs;
        int run = runs.runAt(16);
        long first = runs.lcn(run) * 8;
        int sectors = (int) runs.count(run) * 8;
        long before = 65536;
        for (int sector = 0; sector < sectors; sector++) {
            Content content = content(Volumes.open(image.without(SectorRanges.of(first + sector, 1))), "comp/text.txt", "");
            List<ByteRange> missing = content.missing();
            byte[] bytes = new byte[168000];
            assertEquals(missing, content.read(0, bytes, 0, bytes.length), "sector " + sector);
            byte[] expected = written.get("comp/text.txt").clone();
            for (ByteRange range : missing) {
                assertTrue(range.start() >= 65536 && range.end() <= 131072, "sector " + sector + ": " + missing);
                java.util.Arrays.fill(expected, (int) range.start(), (int) range.end(), (byte) 0);
            }
            assertArrayEquals(expected, bytes, "sector " + sector);
            long from = missing.isEmpty() ? 131072 : missing.get(0).start();
            assertTrue(sector == 0 ? from == 65536 : from > before || from == 131072, "sector " + sector + " from " + from + " after " + before);
            assertEquals(missing.isEmpty() ? FileState.COMPLETE : FileState.DAMAGED, content.state());
            before = from;
        }
    }

    /** A unit that was read but does not decompress is found out by reading it, and named from then on. */
    @Test
    void aCompressedUnitThatIsDamagedIsNamedOnceItWasRead() {
        FileRecord record = FileRecord.of(volume.table(), tree().number(tree().find("comp/text.txt").orElseThrow()));
        RunList runs = record.stream(AttributeType.DATA, "").orElseThrow().runs;
        long at = volume.table().geometry().clusterByte(runs.lcn(runs.runAt(16)));
        Content content = content(Volumes.open(image.with(at, 0x1A, 0x02)), "comp/text.txt", ""); // signature 0 instead of 3
        List<ByteRange> lost = List.of(new ByteRange(65536, 65536));
        assertEquals(lost, content.read(0, new byte[168000], 0, 168000));
        assertEquals(lost, content.missing());
        assertEquals(FileState.DAMAGED, content.state());
    }
}
