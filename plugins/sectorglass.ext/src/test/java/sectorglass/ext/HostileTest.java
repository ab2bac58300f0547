package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertTimeout;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.time.Duration;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.disk.Allocation;
import sectorglass.disk.Files;
import sectorglass.disk.ReadOrder;
import sectorglass.disk.Volume;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;

/** The image is hostile: whatever stands in it, nothing throws, hangs or grows without bounds. */
class HostileTest {
    private static final int[] EXTREMES = {0, 1, -1, Integer.MAX_VALUE, Integer.MIN_VALUE, 0xFFFF, 0x10000, 0x7FFF, 8, 12};

    private static void use(byte[] bytes) {
        assertTimeout(Duration.ofSeconds(20), () -> {
            DiskFile image = DiskFile.of(bytes);
            Judged judged = Forced.full(image);
            Volume volume = judged.volume();
            volume.structures();
            for (long at = 0; at < bytes.length; at += 65536 + 1000) {
                volume.structureAt(at);
            }
            volume.witnesses();
            volume.capability(Files.class).ifPresent(files -> {
                var tree = files.tree(Progress.NONE);
                for (int id = 0; id < Math.min(600, tree.size()); id++) {
                    tree.entry(id);
                    var content = files.content(id, "");
                    if (content != null) {
                        content.missing();
                        content.read(0, new byte[(int) Math.min(4096, Math.max(0, content.bytes()))], 0,
                                (int) Math.min(4096, Math.max(0, content.bytes())));
                    }
                }
            });
            volume.capability(Allocation.class).ifPresent(allocation -> {
                allocation.used();
                allocation.metadata();
                allocation.owners(new SectorRange(100, 50), Progress.NONE);
            });
            volume.capability(ReadOrder.class).ifPresent(order -> order.stages(Progress.NONE));
        });
    }

    @ParameterizedTest
    @ValueSource(strings = {"e2", "e4", "e4seed"})
    void superblockFieldsAtExtremes(String name) {
        byte[] good = ExtImages.image(name);
        for (int at = 0; at < 0x110; at += 8) {
            byte[] bytes = good.clone();
            ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).putInt(1024 + at, EXTREMES[at / 8 % EXTREMES.length]);
            use(bytes);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"e2", "e3", "e4", "e4h", "e4seed"})
    void randomWordsInMetadata(String name) {
        byte[] good = ExtImages.image(name);
        int end = Math.min(good.length, name.equals("e4") || name.equals("e4h") ? 140 * 4096 : 1 << 20);
        Random random = new Random(name.hashCode());
        for (int round = 0; round < 6; round++) {
            byte[] bytes = good.clone();
            ByteBuffer words = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
            for (int i = 0; i < 60; i++) {
                words.putInt(2048 + random.nextInt((end - 2052) / 4) * 4, EXTREMES[random.nextInt(EXTREMES.length)]);
            }
            for (int inode = 0; inode < 24; inode++) {
                int table = name.startsWith("e4") && !name.equals("e4seed") ? 10 * 4096 : 8192;
                words.putInt(table + random.nextInt(4096), random.nextInt());
            }
            use(bytes);
        }
    }

    @Test
    void anExtentTreeThatPointsAtItself() {
        byte[] bytes = ExtImages.image("e4").clone();
        ByteBuffer le = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        int node = 137 * 4096;
        le.putShort(node + 6, (short) 4);
        for (int i = 0; i < 340; i++) {
            le.putInt(node + 12 + 12 * i, i);
            le.putInt(node + 16 + 12 * i, 137);
        }
        le.putShort(node + 2, (short) 340);
        le.putShort(10 * 4096 + 16 * 256 + 0x28 + 6, (short) 5);
        use(bytes);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 5, 6, 255, 0x7FFF, 0xFFFF})
    void extentTreesOfAbsurdDepth(int depth) {
        byte[] bytes = ExtImages.image("e4").clone();
        ByteBuffer le = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        // blocks 200 to 210 form a chain, each naming the next and the first; the last names the first
        for (int i = 0; i <= 10; i++) {
            int at = (200 + i) * 4096;
            le.putShort(at, (short) 0xF30A).putShort(at + 2, (short) 2).putShort(at + 4, (short) 340).putShort(at + 6, (short) (depth - 1 - i));
            le.putInt(at + 12, 0).putInt(at + 16, 200 + (i + 1) % 11).putInt(at + 24, 1).putInt(at + 28, 200);
        }
        for (int inode : new int[] {12, 13, 16, 17}) {
            int at = 10 * 4096 + (inode - 1) * 256 + 0x28;
            le.putShort(at, (short) 0xF30A).putShort(at + 2, (short) 1).putShort(at + 4, (short) 4).putShort(at + 6, (short) depth);
            le.putInt(at + 12, 0).putInt(at + 16, 200);
        }
        use(bytes);
    }

    @Test
    void directoriesThatHoldEachOther() {
        byte[] bytes = ExtImages.image("e4").clone();
        ByteBuffer le = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        // the file in /docs/sub becomes /docs, ".." of both lead into each other, and the root no longer names /docs
        le.putInt(80 * 4096 + 24, 12);
        le.put(80 * 4096 + 24 + 7, (byte) 2);
        le.putInt(79 * 4096 + 12, 13);
        for (int at = 74 * 4096; at < 75 * 4096 - 12; at += Math.max(12, le.getShort(at + 4))) {
            if (le.getInt(at) == 12) {
                le.putInt(at, 0);
            }
        }
        use(bytes);
        var tree = Forced.open(DiskFile.of(bytes)).capability(Files.class).orElseThrow().tree(Progress.NONE);
        int[] seen = {0};
        tree.walk(tree.root(), (id, depth) -> {
            seen[0]++;
            return depth < 1000;
        });
        org.junit.jupiter.api.Assertions.assertTrue(tree.find("hello.txt").isPresent());
        org.junit.jupiter.api.Assertions.assertEquals(tree.size(), seen[0], "each entry hangs in the tree once");
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 4, 8, 11, 0xFFFF})
    void recordLengthsThatLeadNowhere(int length) {
        byte[] bytes = ExtImages.image("e4").clone();
        ByteBuffer le = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        for (int block : new int[] {74, 79, 80}) {
            for (int entry = 0, at = block * 4096; entry < 3; entry++, at += 12) {
                if (entry == 2) {
                    le.putShort(at + 4, (short) length);
                }
            }
        }
        use(bytes);
    }

    /** Every inode claims the same large tree: the work must stay in proportion to the volume, not to inodes times blocks. */
    @ParameterizedTest
    @ValueSource(ints = {0x41ED, 0x81A4})
    void allInodesShareOneTree(int mode) {
        byte[] bytes = ExtImages.image("e2").clone();
        ByteBuffer le = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        int table = le.getInt(2048 + 8) * 1024;
        // a double indirect block of blocks that name each block of the volume again and again
        for (int i = 0; i < 256; i++) {
            le.putInt(1000 * 1024 + 4 * i, 1001 + i);
            for (int j = 0; j < 256; j++) {
                le.putInt((1001 + i) * 1024 + 4 * j, 600 + (i * 256 + j) % 3000);
            }
        }
        for (int inode = 11; inode < 500; inode++) {
            int at = table + (inode - 1) * 128;
            le.putShort(at, (short) mode).putInt(at + 4, 66_000 * 1024).putShort(at + 0x1A, (short) 1).putInt(at + 0x1C, 132_000);
            le.putInt(at + 0x28 + 4 * 13, 1000);
        }
        use(bytes);
    }

    @Test
    void cutAnywhere() {
        byte[] good = ExtImages.image("e2");
        for (int length : new int[] {0, 511, 1024, 1080, 1536, 2047, 2048, 3000, 8192, 50000, 1 << 20, good.length - 1}) {
            use(java.util.Arrays.copyOf(good, length));
        }
    }
}
