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

    @Test
    void cutAnywhere() {
        byte[] good = ExtImages.image("e2");
        for (int length : new int[] {0, 511, 1024, 1080, 1536, 2047, 2048, 3000, 8192, 50000, 1 << 20, good.length - 1}) {
            use(java.util.Arrays.copyOf(good, length));
        }
    }
}
