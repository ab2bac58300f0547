package sectorglass.apple;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.Consumer;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.SectorRanges;
import sectorglass.testvolumes.ApfsMaker;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;
import sectorglass.testvolumes.VolumeExercise;
import sectorglass.verify.RuleBook;

/** Damages of an APFS container, with checksums made right again: each is found by the rule it breaks; hostile nodes do no harm. */
class ApfsHostileTest {
    private static final RuleBook BOOK = new RuleBook(List.of(new AppleRules()), Locale.ENGLISH);
    @TempDir
    static Path folder;
    private static Path file;

    @BeforeAll
    static void make() throws IOException {
        file = ApfsMade.rich(folder, "hostile.img", 40);
    }

    /** The container with a block changed and its checksum right. */
    private static DiskFile changed(DiskFile image, long block, Consumer<ByteBuffer> damage) {
        byte[] bytes = image.window(block * 4096, 4096).bytes(0, 4096);
        damage.accept(ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN));
        ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).putLong(0, ApfsMaker.sum(bytes));
        DiskFile copy = image.set(block * 4096, bytes[0]);
        int[] values = new int[4096];
        for (int i = 0; i < 4096; i++) {
            values[i] = bytes[i] & 0xFF;
        }
        return copy.plant(block * 4096, values);
    }

    private static void finds(String rule, long block, Consumer<ByteBuffer> damage) {
        try (DiskFile image = DiskFile.of(file)) {
            Judged judged = Judged.full(changed(image, block, damage));
            assertEquals(List.of(rule), judged.failed().stream().distinct().toList(), judged.text());
        }
    }

    private record Blocks(long manager, long info, long bitmap, long volume, long map, long mapTree, long root, long leaf) { }

    private static Blocks blocks(DiskFile image) {
        ApfsContainer container = new ApfsContainer(image.site(), 0);
        ApfsSpace space = ApfsSpace.of(container);
        ApfsVolumeHeader volume = container.volumes().found().get(0);
        ApfsCatalog catalog = new ApfsCatalog(volume, sectorglass.image.Progress.NONE);
        return new Blocks(space.header.at() / 4096, space.infos.get(0), space.chunks().get(0).bitmap(), volume.block, volume.mapBlock(),
                volume.map().nodes().get(0), volume.map().block(volume.w.u64le(0x88)), catalog.leaves.get(0));
    }

    /** Byte of the value of the first record of a type in a leaf. */
    private static int value(ByteBuffer w, int type) {
        ApfsNode node = ApfsNode.of(sectorglass.image.Window.ofRead(w.array(), 0, 512), 0, 0);
        for (int i = 0; i < node.count(); i++) {
            if (ApfsRecords.type(node.w, node.key(i)) == type) {
                return node.value(i);
            }
        }
        throw new AssertionError("no record of type " + type);
    }

    @Test
    void eachDamageIsFoundByItsRule() {
        Blocks at;
        try (DiskFile image = DiskFile.of(file)) {
            at = blocks(image);
        }
        finds("apfs.space.size", at.manager(), w -> w.putLong(0x30, 65535));
        finds("apfs.space.free-sum", at.manager(), w -> w.putLong(0x48, 1));
        finds("apfs.vol.counts", at.volume(), w -> w.putLong(0xB8, 1));
        finds("apfs.vol.counts", at.volume(), w -> w.putLong(0xC8, 7));
        finds("apfs.obj.identity", at.map(), w -> w.putLong(8, 5));
        finds("apfs.obj.identity", at.root(), w -> w.putLong(8, 5));
        finds("apfs.btree.node", at.leaf(), w -> w.putShort(0x38 + 8 + 2, (short) 0xFFFF));
        finds("apfs.btree.order", at.leaf(), w -> {
            long second = w.getLong(0x40);
            w.putLong(0x40, w.getLong(0x48)).putLong(0x48, second);
        });
        finds("apfs.dir.children", at.leaf(), w -> w.putInt(value(w, ApfsRecords.INODE) + 56, 99));
        finds("apfs.dir.target", at.leaf(), w -> w.putLong(value(w, ApfsRecords.NAME), 999));
        try (DiskFile image = DiskFile.of(file)) {
            Judged judged = Judged.full(image.flip(at.bitmap() * 4096 + 22000 / 8, 1));
            assertTrue(judged.failed().contains("apfs.space.chunk-free"), judged.text());
            assertTrue(judged.text().contains("apfs.extent.marked"), judged.text());
            assertEquals(List.of("apfs.obj.checksum"), Judged.full(image.flip(at.leaf() * 4096 + 3000, 1)).failed().stream().distinct().toList());
        }
    }

    /** Two checkpoints; the maps of the newer one, then the object map that it names, are damaged: the older one is read. */
    @Test
    void aDamagedCheckpointGivesWayToTheOneBefore() {
        try (DiskFile image = DiskFile.of(file)) {
            byte[] map = image.window(4096, 4096).bytes(0, 4096);
            byte[] superblock = image.window(2 * 4096, 4096).bytes(0, 4096);
            DiskFile two = changed(changed(image, 3, w -> w.put(0, map).putLong(8, 3).putLong(16, 2)), 4,
                    w -> w.put(0, superblock).putLong(16, 2).putInt(0x88, 2).putInt(0x8C, 2));
            assertEquals(4, new ApfsContainer(two.site(), 0).newest);
            assertEquals(List.of("apfs.nx.latest"), Judged.full(two).failed());
            ApfsContainer older = new ApfsContainer(two.flip(3 * 4096 + 100, 1).site(), 0);
            assertEquals(2, older.newest);
            assertEquals(4, older.latest);
            assertEquals(1, older.volumes().found().size());
            Judged judged = Judged.full(two.flip(3 * 4096 + 100, 1));
            assertTrue(judged.volume().info().remarks().get(0).contains("checkpoint of transaction 1"), judged.volume().info().remarks().toString());
            DiskFile lost = changed(two, 4, w -> w.putLong(0xA0, 23000));
            assertEquals(2, new ApfsContainer(lost.site(), 0).newest);
        }
    }

    private static void stands(DiskFile image) {
        assertTimeoutPreemptively(Duration.ofSeconds(30), () -> VolumeExercise.run(new ApfsVolumes(), BOOK, image));
    }

    @Test
    void nodesThatLoopAndPlacesBeyondTheNode() {
        try (DiskFile image = DiskFile.of(file)) {
            Blocks at = blocks(image);
            for (int value : new int[] {0, 4, 0x38, 0xFFFF}) {
                for (int field : new int[] {0x20, 0x22, 0x24, 0x28, 0x2A, 0x38, 0x3A, 0x3C, 0x3E}) {
                    stands(changed(image, at.root(), w -> w.putShort(field, (short) value)));
                    stands(changed(image, at.leaf(), w -> w.putShort(field, (short) value)));
                    stands(changed(image, at.mapTree(), w -> w.putShort(field, (short) value)));
                }
            }
            // the object map leads from every id to the root itself
            stands(changed(image, at.mapTree(), w -> {
                for (int i = 0; i < w.getInt(0x24); i++) {
                    w.putLong(4096 - 40 - 16 * (i + 1) + 8, at.root());
                }
            }));
        }
    }

    @Test
    void anyNumbersInManagerAndSuperblocks() {
        try (DiskFile image = DiskFile.of(file)) {
            Blocks at = blocks(image);
            for (long block : new long[] {0, 2, at.manager(), at.info(), at.volume(), at.map()}) {
                for (int field = 0x20; field < 0x100; field += 8) {
                    int place = field;
                    for (long value : new long[] {place % 16 == 0 ? -1 : Long.MAX_VALUE}) {
                        stands(changed(image, block, w -> w.putLong(place, value)));
                    }
                }
            }
        }
    }

    @Test
    void anyBytesAnywhereInTheTrees() {
        Random random = new Random(5);
        try (DiskFile image = DiskFile.of(file)) {
            Blocks at = blocks(image);
            long[] places = {at.root(), at.leaf(), at.mapTree(), at.volume(), at.info()};
            for (int round = 0; round < 40; round++) {
                DiskFile damaged = image;
                for (int i = 0; i < 3; i++) {
                    damaged = changed(damaged, places[random.nextInt(places.length)], w -> {
                        for (int k = 0; k < 4; k++) {
                            w.put(32 + random.nextInt(random.nextBoolean() ? 200 : 4064), (byte) random.nextInt());
                        }
                    });
                }
                stands(random.nextInt(3) == 0 ? damaged.unread(SectorRanges.of(places[random.nextInt(places.length)] * 8 + 3, 1)) : damaged);
            }
        }
    }
}
