package sectorglass.apple;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.disk.Content;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Volume;
import sectorglass.image.Progress;
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
    void aCatalogInManyPiecesIsFollowed() {
        HfsPlusMaker maker = HfsVolumesMade.rich("H+").catalogPieces(3);
        Judged judged = Judged.full(DiskFile.of(maker.write()));
        assertEquals("", judged.text());
        Files files = judged.volume().capability(Files.class).orElseThrow();
        assertArrayEquals(HfsVolumesMade.text("content 119"),
                content(files, "docs/file 119 with a name that fills the nodes of the catalog", ""));
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
