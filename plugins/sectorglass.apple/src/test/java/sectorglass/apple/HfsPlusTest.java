package sectorglass.apple;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.disk.Content;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Volume;
import sectorglass.image.Progress;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.HfsPlusMaker;
import sectorglass.testvolumes.Judged;
import sectorglass.testvolumes.Specs;

/** Sound HFS+ and HFSX volumes: no finding, and every name, fork, link and compressed file comes out as it went in. */
class HfsPlusTest {
    private static final List<String> RULES = List.of("hfs.vh.geometry", "hfs.vh.equal-alternate", "hfs.vh.clean", "hfs.vh.counts",
            "hfs.btree.node", "hfs.btree.chain", "hfs.btree.order", "hfs.btree.records", "hfs.btree.map", "hfs.catalog.thread",
            "hfs.catalog.valence", "hfs.catalog.next-id", "hfs.fork.extents", "hfs.bitmap.free-count", "hfs.bitmap.owned-once",
            "hfs.bitmap.marked", "hfs.bitmap.leaked", "hfs.journal.place", "hfs.journal.header", "hfs.journal.checksum");

    static byte[] content(Files files, String path, String stream) {
        FileTree tree = files.tree(Progress.NONE);
        Content content = files.content(tree.find(path).orElseThrow(() -> new AssertionError("no " + path)), stream);
        byte[] bytes = new byte[(int) content.bytes()];
        assertEquals(List.of(), content.read(0, bytes, 0, bytes.length), path);
        assertEquals(List.of(), content.missing(), path);
        return bytes;
    }

    @ParameterizedTest
    @ValueSource(strings = {"H+", "HX", "HX binary"})
    void soundVolumePassesEveryRule(String kind) {
        Judged judged = Judged.full(DiskFile.of(HfsVolumesMade.rich(kind).write()));
        assertEquals("", judged.text());
        for (String rule : RULES) {
            assertTrue(judged.passed(rule), rule);
        }
        assertEquals("Größe", judged.volume().info().label());
        assertEquals(List.of(), judged.volume().info().remarks());
        assertEquals("[Role[role=USER_FOLDERS, reasons=[the root folder holds names that are none of the system's: docs, hello.txt]]]",
                judged.volume().roles().toString());
    }

    @Test
    void everyFileComesOut() {
        Volume volume = Judged.open(DiskFile.of(HfsVolumesMade.rich("H+").write())).orElseThrow();
        Files files = volume.capability(Files.class).orElseThrow();
        FileTree tree = files.tree(Progress.NONE);
        assertEquals(List.of(), tree.remarks());
        assertEquals(-1, tree.withoutFolder());
        assertArrayEquals(HfsVolumesMade.noise(20 * 1024 + 100, 1), content(files, "docs/pieces.bin", ""));
        assertArrayEquals(HfsVolumesMade.text("composed"), content(files, "docs/Übung: drei", ""));
        assertArrayEquals(HfsVolumesMade.noise(3000, 2), content(files, "docs/fork.txt", "resource fork"));
        assertArrayEquals(HfsVolumesMade.text("inline ".repeat(40)), content(files, "docs/inline.z", ""));
        assertArrayEquals(HfsVolumesMade.text("compressed in a fork, ".repeat(7000)), content(files, "docs/fork.z", ""));
        for (String link : List.of("docs/first link", "docs/second link")) {
            assertArrayEquals(HfsVolumesMade.text("linked content"), content(files, link, ""));
            FileEntry entry = tree.entry(tree.find(link).orElseThrow());
            assertEquals(2, entry.links());
            assertEquals(14, entry.bytes());
            assertEquals(3, tree.withNumber(entry.number()).size());
        }
        FileEntry broken = tree.entry(tree.find("docs/broken link").orElseThrow());
        assertEquals(-1, broken.bytes());
        assertEquals(List.of("A hard link to iNode78, whose record was not found."), broken.remarks());
        assertEquals(FileState.UNKNOWN, files.content(broken.id(), "").state());
        FileEntry symbolic = tree.entry(tree.find("docs/symbolic").orElseThrow());
        assertEquals(List.of("A symbolic link to /docs/fork.txt."), symbolic.remarks());
        FileEntry foreign = tree.entry(tree.find("docs/foreign.z").orElseThrow());
        assertEquals(99, foreign.bytes());
        assertEquals("compressed", foreign.streams().get(0).storage());
        assertTrue(foreign.remarks().get(0).contains("LZVN"), foreign.remarks().toString());
        assertEquals(FileState.UNKNOWN, files.content(foreign.id(), "").state());
        assertEquals("2023-11-14T22:13:20Z", foreign.times().modified().toString());
        assertTrue(files.structure(tree.find(".journal").orElseThrow()));
        assertFalse(files.structure(tree.find("docs").orElseThrow()));
    }

    @Test
    void structuresDecode() {
        Volume volume = Judged.open(DiskFile.of(HfsVolumesMade.rich("H+").write())).orElseThrow();
        List<String> problems = new ArrayList<>();
        assertEquals(7, Specs.decode(volume, problems));
        assertEquals(List.of(), problems);
    }

    @Test
    void nodesOfTheTreesDecode() {
        byte[] bytes = HfsVolumesMade.rich("H+").write();
        DiskFile image = DiskFile.of(bytes);
        Volume volume = Judged.open(image).orElseThrow();
        java.util.Map<String, Integer> decoded = new java.util.TreeMap<>();
        List<String> problems = new ArrayList<>();
        for (long at = 0; at < bytes.length; at += 4096) {
            volume.structureAt(at + 512).filter(s -> s.format().endsWith("_node")).ifPresent(structure -> {
                decoded.merge(structure.format(), Specs.decode(image, structure, problems), Integer::sum);
            });
        }
        assertEquals(List.of(), problems);
        assertEquals(java.util.Set.of("hfsplus_catalog_node", "hfsplus_extents_node", "hfsplus_attributes_node"), decoded.keySet());
        assertTrue(decoded.get("hfsplus_catalog_node") > 10, decoded.toString());
    }

    @Test
    void theSpecOfCatalogNodesAndTheReaderSeeTheSame() {
        DiskFile image = DiskFile.of(HfsVolumesMade.rich("H+").write());
        HfsLayout layout = HfsLayout.of(image.site(), new HfsPlus.Place(0, image.bytes(), 1024));
        HfsTree catalog = layout.tree(HfsTree.Kind.CATALOG);
        Volume volume = Judged.open(image).orElseThrow();
        int[] records = {0};
        catalog.scan((number, w, offsets) -> {
            sectorglass.decode.FieldNode root = Specs.decode(image, volume.structureAt(w.address(14)).orElseThrow());
            for (int i = 0; i + 1 < offsets.length; i++) {
                String name = HfsFiles.name(w, offsets[i]);
                String spec = value(root, "records[" + i + "].key.name");
                assertEquals(sectorglass.image.SafeText.of(name),
                        java.text.Normalizer.normalize(spec, java.text.Normalizer.Form.NFC).replace('/', ':'));
                int data = HfsKeys.record(w, offsets[i], offsets[i + 1]);
                if (w.u16be(data) <= 2) {
                    assertEquals(Long.toString(w.u32be(data + 8)), value(root, "records[" + i + "].data.body.catalog_id"));
                }
                records[0]++;
            }
        }, Progress.NONE);
        assertTrue(records[0] > 250, records[0] + " records");
    }

    private static String value(sectorglass.decode.FieldNode node, String path) {
        if (node.path().equals(path)) {
            return String.valueOf(node.value());
        }
        return node.children().stream().map(child -> value(child, path)).filter(java.util.Objects::nonNull).findFirst().orElse(null);
    }

    @Test
    void anotherMakersVolumeGivesTheSameFiles(@TempDir Path folder) throws IOException {
        Path source = folder.resolve("t");
        for (int i = 0; i < 400; i++) {
            Path file = source.resolve("Ordner " + i % 7).resolve(i % 3 == 0 ? "Dänemark " + i : "file number " + i);
            java.nio.file.Files.createDirectories(file.getParent());
            java.nio.file.Files.write(file, HfsVolumesMade.noise(i * 37, i));
        }
        Path image = folder.resolve("x.img");
        Tool.run(java.util.Map.of("LC_ALL", "C.UTF-8"), null, 20, "xorrisofs", "-quiet", "-hfsplus", "-V", "OTHER", "-o", image.toString(),
                source.toString()).ok();
        Judged judged = Judged.full(DiskFile.of(hfsPart(java.nio.file.Files.readAllBytes(image))));
        assertTrue(List.of(List.of(), List.of("hfs.bitmap.leaked")).contains(judged.failed()), judged.text());
        Files files = judged.volume().capability(Files.class).orElseThrow();
        for (int i = 0; i < 400; i++) {
            assertArrayEquals(HfsVolumesMade.noise(i * 37, i),
                    content(files, "Ordner " + i % 7 + "/" + (i % 3 == 0 ? "Dänemark " + i : "file number " + i), ""));
        }
    }

    /** The HFS+ partition by the Apple partition map (Inside Macintosh: Devices): entries "PM", start at 8, type at 48. */
    private static byte[] hfsPart(byte[] disk) {
        java.nio.ByteBuffer w = java.nio.ByteBuffer.wrap(disk);
        for (int at = 512; at < 65536; at += 512) {
            if (new String(disk, at, 60, java.nio.charset.StandardCharsets.ISO_8859_1).matches("(?s)PM.{46}Apple_HFS.*")) {
                int start = w.getInt(at + 8) * 512;
                int length = w.getInt(start + 1024 + 44) * w.getInt(start + 1024 + 40);
                return java.util.Arrays.copyOfRange(disk, start, start + length);
            }
        }
        throw new AssertionError("no HFS+ partition");
    }

    @Test
    void aCatalogInManyPiecesIsFollowed() {
        HfsPlusMaker maker = HfsVolumesMade.rich("H+").catalogPieces(3);
        Judged judged = Judged.full(DiskFile.of(maker.write()));
        assertEquals("", judged.text());
        Files files = judged.volume().capability(Files.class).orElseThrow();
        assertArrayEquals(HfsVolumesMade.text("content 119"),
                content(files, "docs/file 119 with a name that fills the nodes of the catalog", ""));
    }

    @Test
    void aTreeWhoseMapGoesOnInMapNodesIsSound() {
        HfsPlusMaker maker = new HfsPlusMaker("H+", 512, 16384, 512, "maps");
        int folder = maker.folder(HfsPlusMaker.ROOT, "f");
        for (int i = 0; i < 2600; i++) {
            maker.file(folder, "n" + i, new byte[0]);
        }
        byte[] bytes = maker.write();
        assertTrue(java.nio.ByteBuffer.wrap(bytes).getInt(1024 + 272 + 12) > 2048, "the catalog has no map node");
        Judged judged = Judged.full(DiskFile.of(bytes));
        assertEquals("", judged.text());
        assertTrue(judged.passed("hfs.btree.map"));
        assertEquals(2602, judged.volume().capability(Files.class).orElseThrow().tree(Progress.NONE).size());
    }

    @Test
    void aVolumeInAWrapperIsOpened() {
        byte[] wrapped = HfsPlusMaker.wrapped(HfsVolumesMade.rich("H+").write(), 4096);
        Judged judged = Judged.full(DiskFile.of(wrapped));
        assertEquals("", judged.text());
        assertEquals(List.of("HFS+ at byte 12288 in an HFS wrapper"), judged.volume().info().remarks());
        assertArrayEquals(HfsVolumesMade.text("hello, world\n"), content(judged.volume().capability(Files.class).orElseThrow(), "hello.txt", ""));
    }
}
