package sectorglass.apple;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

import org.junit.jupiter.api.Test;

import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.ReadOrder;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;

/** Damages of an HFS+ volume: each is found by the rule that it breaks, what was not read never counts as damage, files are found again. */
class HfsDamageTest {
    private static final int HEADER = 1024;
    private static final int BLOCK = 512;
    private static final byte[] SOUND = HfsVolumesMade.rich("H+").write();

    private static ByteBuffer sound() {
        return ByteBuffer.wrap(SOUND.clone());
    }

    /** Byte of the first extent of a fork in the header. */
    private static int fork(ByteBuffer w, int at) {
        return w.getInt(HEADER + at + 16) * BLOCK;
    }

    private static int catalog(ByteBuffer w) {
        return fork(w, 272);
    }

    /** Byte of the n-th leaf of the catalog. */
    private static int leaf(ByteBuffer w, int n) {
        int node = w.getInt(catalog(w) + 24);
        for (int i = 0; i < n; i++) {
            node = w.getInt(catalog(w) + node * 4096);
        }
        return catalog(w) + node * 4096;
    }

    private static int record(ByteBuffer w, int leaf, int i) {
        return leaf + w.getShort(leaf + 4096 - 2 * (i + 1));
    }

    /** Byte of the data of the first record of a type that stands after the given number of others of its type. */
    private static int data(ByteBuffer w, int type, int skip) {
        int left = skip;
        for (int n = 0;; n++) {
            int leaf = leaf(w, n);
            for (int i = 0; i < w.getShort(leaf + 10); i++) {
                int key = record(w, leaf, i);
                int data = key + 2 + w.getShort(key) + (w.getShort(key) & 1);
                if (w.getShort(data) == type && left-- == 0) {
                    return data;
                }
            }
        }
    }

    private static void finds(String rule, Consumer<ByteBuffer> damage) {
        ByteBuffer w = sound();
        damage.accept(w);
        Judged judged = Judged.full(DiskFile.of(w.array()));
        assertEquals(List.of(rule), judged.failed().stream().distinct().toList(), judged.text());
    }

    @Test
    void eachDamageIsFoundByItsRule() {
        finds("hfs.vh.clean", w -> both(w, 4, w.getInt(HEADER + 4) & ~0x100));
        finds("hfs.vh.counts", w -> both(w, 32, w.getInt(HEADER + 32) + 1));
        finds("hfs.catalog.next-id", w -> both(w, 64, 16));
        finds("hfs.bitmap.free-count", w -> both(w, 48, w.getInt(HEADER + 48) - 1));
        finds("hfs.btree.records", w -> w.putInt(catalog(w) + 20, 1));
        finds("hfs.btree.map", w -> w.put(catalog(w) + 248, (byte) (w.get(catalog(w) + 248) ^ 0x40)));
        finds("hfs.btree.map", w -> w.putInt(catalog(w) + 40, w.getInt(catalog(w) + 40) + 1));
        finds("hfs.btree.node", w -> w.put(catalog(w) + 8, (byte) 0));
        finds("hfs.btree.node", w -> w.putInt(catalog(w) + 36, 3));
        finds("hfs.btree.node", w -> w.put(leaf(w, 2) + 9, (byte) 3));
        finds("hfs.btree.node", w -> w.putShort(leaf(w, 1) + 4094, (short) 16));
        finds("hfs.btree.chain", w -> w.putInt(leaf(w, 1), 1));
        finds("hfs.btree.chain", w -> w.putInt(leaf(w, 2) + 4, 9));
        finds("hfs.btree.chain", w -> w.putInt(catalog(w) + 28, 1));
        finds("hfs.btree.order", w -> w.putShort(record(w, leaf(w, 1), 1), (short) 0xFFFF));
        finds("hfs.btree.order", w -> w.putShort(record(w, leaf(w, 1), 1), (short) 0));
        finds("hfs.btree.order", w -> w.putInt(record(w, leaf(w, 1), 2) + 2, 1));
        finds("hfs.btree.order", w -> w.putShort(record(w, leaf(w, 0), 3) + 8, (short) 1));
        finds("hfs.catalog.valence", w -> w.putInt(data(w, 1, 1) + 4, 99));
        finds("hfs.catalog.thread", w -> w.putInt(data(w, 3, 1) + 4, 99));
        finds("hfs.fork.extents", w -> w.putLong(data(w, 2, 3) + 88, 1 << 20));
        finds("hfs.bitmap.marked", w -> {
            int block = w.getInt(data(w, 2, 1) + 88 + 16);
            int at = fork(w, 112) + block / 8;
            w.put(at, (byte) (w.get(at) & ~(0x80 >> block % 8)));
            both(w, 48, w.getInt(HEADER + 48) + 1);
        });
        finds("hfs.bitmap.leaked", w -> {
            int block = 8100;
            int at = fork(w, 112) + block / 8;
            w.put(at, (byte) (w.get(at) | 0x80 >> block % 8));
            both(w, 48, w.getInt(HEADER + 48) - 1);
        });
        finds("hfs.journal.place", w -> w.putLong(w.getInt(HEADER + 12) * BLOCK + 36, 1L << 40));
        finds("hfs.journal.header", w -> w.putInt(journal(w), 7));
        finds("hfs.journal.checksum", w -> w.putInt(journal(w) + 36, 7));
    }

    private static int journal(ByteBuffer w) {
        return (int) w.getLong(w.getInt(HEADER + 12) * BLOCK + 36);
    }

    private static void both(ByteBuffer w, int at, int value) {
        w.putInt(HEADER + at, value).putInt(SOUND.length - 1024 + at, value);
    }

    @Test
    void aBlockOfTwoFilesIsNamedWithBoth() {
        ByteBuffer w = sound();
        int first = data(w, 2, 2);
        int second = data(w, 2, 4);
        w.putInt(second + 88 + 16, w.getInt(first + 88 + 16));
        Judged judged = Judged.full(DiskFile.of(w.array()));
        assertEquals(List.of("hfs.bitmap.owned-once"), judged.failed(), judged.text());
        assertTrue(judged.text().contains("of file " + w.getInt(first + 8) + " and file " + w.getInt(second + 8)), judged.text());
        // the second file's own block is used, but owned by nobody now; while an owner is doubtful that is not told
        assertEquals(List.of("hfs.bitmap.leaked"), judged.undecided().stream().distinct().toList());
    }

    @Test
    void aFailureUnderAJournalThatWaitsIsNotDecided() {
        byte[] bytes = pending();
        both(ByteBuffer.wrap(bytes), 48, 5);
        Judged judged = Judged.full(DiskFile.of(bytes));
        assertEquals(List.of("hfs.bitmap.free-count"), judged.undecided(), judged.text());
        assertEquals(List.of(), judged.failed(), judged.text());
        assertTrue(judged.volume().info().remarks().contains("journal needs replay"));
    }

    private static byte[] pending() {
        ByteBuffer w = sound();
        w.order(java.nio.ByteOrder.LITTLE_ENDIAN);
        int at = (int) ByteBuffer.wrap(SOUND).getLong(ByteBuffer.wrap(SOUND).getInt(HEADER + 12) * BLOCK + 36);
        w.putLong(at + 16, 4096);
        int sum = 0;
        for (int i = 0; i < 44; i++) {
            sum = sum << 8 ^ sum + (i >= 36 && i < 40 ? 0 : w.get(at + i) & 0xFF);
        }
        w.putInt(at + 36, ~sum);
        return w.array();
    }

    @Test
    void unreadIsNoDamage() {
        ByteBuffer w = sound();
        List<Integer> sectors = new ArrayList<>(List.of(2, SOUND.length / BLOCK - 2));
        for (int fork : new int[] {112, 192, 272, 352}) {
            for (int block = 0; block < w.getInt(HEADER + fork + 20); block++) {
                sectors.add(w.getInt(HEADER + fork + 16) + block);
            }
        }
        sectors.add(w.getInt(HEADER + 12));
        sectors.add(journal(w) / BLOCK);
        for (int sector : sectors) {
            Judged judged = Judged.full(DiskFile.of(SOUND).unread(SectorRanges.of(sector, 1)));
            assertEquals(List.of(), judged.failed(), "sector " + sector + ": " + judged.text());
            assertTrue(!judged.undecided().isEmpty(), "sector " + sector + " is not missed");
        }
    }

    /** Paths of the files whose content comes out whole. */
    private static List<String> good(DiskFile image) {
        Files files = Judged.open(image).orElseThrow().capability(Files.class).orElseThrow();
        FileTree tree = files.tree(Progress.NONE);
        List<String> all = new ArrayList<>();
        tree.walk(tree.root(), (entry, depth) -> {
            Content content = files.content(entry, "");
            if (content != null && content.bytes() >= 0 && content.missing().isEmpty()) {
                all.add(tree.path(entry));
            }
            return true;
        });
        all.sort(null);
        return all;
    }

    @Test
    void filesAreListedWithoutTheHeaderNode() {
        List<String> whole = good(DiskFile.of(SOUND));
        int sector = catalog(sound()) / BLOCK;
        assertEquals(whole, good(DiskFile.of(SOUND).unread(SectorRanges.of(sector, 8))));
        ByteBuffer broken = sound();
        broken.putShort(catalog(broken) + 32, (short) 777);
        assertEquals(whole, good(DiskFile.of(broken.array())));
        ByteBuffer loop = sound();
        loop.putInt(leaf(loop, 2), loop.getInt(catalog(loop) + 24));
        assertEquals(whole, good(DiskFile.of(loop.array())));
    }

    @Test
    void anUnreadLeafTakesOnlyItsOwnFiles() {
        DiskFile image = DiskFile.of(SOUND).unread(SectorRanges.of(leaf(sound(), 1) / BLOCK, 1));
        List<String> left = good(image);
        assertTrue(left.size() > 100 && left.size() < good(DiskFile.of(SOUND)).size(), left.size() + " files");
        Files files = Judged.open(image).orElseThrow().capability(Files.class).orElseThrow();
        assertEquals(1, files.tree(Progress.NONE).unreadMetadata().count());
    }

    @Test
    void theAlternateHeaderServes() {
        ByteBuffer w = sound();
        for (int i = 0; i < 512; i++) {
            w.put(HEADER + i, (byte) 0);
        }
        assertEquals(good(DiskFile.of(SOUND)), good(DiskFile.of(w.array())));
    }

    @Test
    void allocationFollowsTheBitmap() {
        DiskFile image = DiskFile.of(SOUND);
        Allocation allocation = Judged.open(image).orElseThrow().capability(Allocation.class).orElseThrow();
        ByteBuffer w = sound();
        assertEquals(w.getInt(HEADER + 48), allocation.free().count());
        assertEquals(8192 - w.getInt(HEADER + 48), allocation.used().count());
        assertTrue(allocation.unknown().isEmpty());
        assertTrue(allocation.metadata().contains(2) && allocation.metadata().contains(catalog(w) / BLOCK));
        int data = data(w, 2, 0);
        List<Allocation.Owner> owners = allocation.owners(new SectorRange(w.getInt(data + 88 + 16), 1), Progress.NONE);
        assertEquals(1, owners.size());
        assertEquals("catalog", owner(allocation, catalog(w) / BLOCK).replace("the ", ""));
        Allocation torn = Judged.open(image.unread(SectorRanges.of(fork(w, 112) / BLOCK, 1))).orElseThrow().capability(Allocation.class).orElseThrow();
        assertEquals(4096, torn.unknown().count());
        assertEquals(8192, torn.unknown().count() + torn.free().count() + torn.used().count());
    }

    private static String owner(Allocation allocation, long lba) {
        return allocation.owners(lba, Progress.NONE).get(0).owner();
    }

    @Test
    void ownersOfPiecesAreNamedByPathAndPlace() {
        Files files = Judged.open(DiskFile.of(SOUND)).orElseThrow().capability(Files.class).orElseThrow();
        FileTree tree = files.tree(Progress.NONE);
        int entry = tree.find("docs/pieces.bin").orElseThrow();
        var last = files.content(entry, "").extents().get(15);
        Allocation allocation = Judged.open(DiskFile.of(SOUND)).orElseThrow().capability(Allocation.class).orElseThrow();
        Allocation.Owner owner = allocation.owners(last.imageByte() / 512, Progress.NONE).get(0);
        assertEquals("docs/pieces.bin", owner.owner());
        assertEquals(last.offset(), owner.offset());
    }

    @Test
    void thePlanReadsHeadersThenTrees() {
        DiskFile image = DiskFile.of(SOUND);
        List<ReadOrder.Stage> stages = Judged.open(image).orElseThrow().capability(ReadOrder.class).orElseThrow().stages(Progress.NONE);
        ByteBuffer w = sound();
        assertTrue(stages.get(0).sectors().contains(2) && stages.get(0).sectors().contains(8190));
        assertTrue(stages.get(1).sectors().contains(fork(w, 192) / BLOCK));
        assertTrue(stages.get(2).sectors().contains(catalog(w) / BLOCK) && stages.get(2).sectors().contains(fork(w, 112) / BLOCK));
        assertTrue(stages.get(3).sectors().contains(fork(w, 352) / BLOCK) && stages.get(3).sectors().contains(journal(w) / BLOCK));
        assertTrue(stages.stream().allMatch(ReadOrder.Stage::complete));
        // with only these sectors read, every name and place is known
        SectorRanges known = SectorRanges.EMPTY;
        for (ReadOrder.Stage stage : stages) {
            known = known.union(stage.sectors());
        }
        DiskFile partly = image.unread(SectorRanges.of(0, 8192).minus(known));
        Files files = Judged.open(partly).orElseThrow().capability(Files.class).orElseThrow();
        Files all = Judged.open(image).orElseThrow().capability(Files.class).orElseThrow();
        assertEquals(all.tree(Progress.NONE).size(), files.tree(Progress.NONE).size());
        int entry = files.tree(Progress.NONE).find("docs/pieces.bin").orElseThrow();
        assertEquals(all.content(entry, "").extents(), files.content(entry, "").extents());
    }

    @Test
    void aPartlyReadCompressedFileGivesWhatItCan() {
        Files whole = Judged.open(DiskFile.of(SOUND)).orElseThrow().capability(Files.class).orElseThrow();
        int entry = whole.tree(Progress.NONE).find("docs/fork.z").orElseThrow();
        var extents = whole.content(entry, "").extents();
        long lba = extents.get(1).imageByte() / 512;
        Files files = Judged.open(DiskFile.of(SOUND).unread(SectorRanges.of(lba + 1, 1))).orElseThrow().capability(Files.class).orElseThrow();
        Content content = files.content(entry, "");
        byte[] bytes = new byte[(int) content.bytes()];
        var missing = content.read(0, bytes, 0, bytes.length);
        assertEquals(content.missing(), missing);
        assertEquals(1, missing.size());
        byte[] expected = HfsVolumesMade.text("compressed in a fork, ".repeat(7000));
        int from = (int) missing.get(0).start();
        assertArrayEquals(java.util.Arrays.copyOf(expected, from), java.util.Arrays.copyOf(bytes, from));
    }
}
