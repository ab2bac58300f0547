package sectorglass.apple;

import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Random;

import org.junit.jupiter.api.Test;

import sectorglass.image.SectorRanges;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.VolumeExercise;
import sectorglass.verify.RuleBook;

/** Volumes made to harm: loops, lengths of 0 and 65,535, offsets beyond nodes, endless forks. Everything ends and nothing throws. */
class HfsHostileTest {
    private static final byte[] SOUND = HfsVolumesMade.rich("H+").write();
    private static final RuleBook BOOK = new RuleBook(List.of(new AppleRules()), Locale.ENGLISH);

    private static boolean stands(DiskFile image) {
        return assertTimeoutPreemptively(Duration.ofSeconds(20), () -> VolumeExercise.run(new HfsVolumes(), BOOK, image));
    }

    private static int fork(ByteBuffer w, int at) {
        return w.getInt(1024 + at + 16) * 512;
    }

    @Test
    void treesThatLoopOrReachBeyondEnd() {
        for (int value : new int[] {0, 1, 2, 17, 0x7FFFFFFF, -1}) {
            for (int field : new int[] {16, 20, 24, 28, 36, 40, 0}) {
                ByteBuffer w = ByteBuffer.wrap(SOUND.clone());
                w.putInt(fork(w, 272) + field, value);
                assertTrue(stands(DiskFile.of(w.array())));
            }
            for (int node = 1; node < 6; node++) {
                ByteBuffer w = ByteBuffer.wrap(SOUND.clone());
                w.putInt(fork(w, 272) + node * 4096, value);
                assertTrue(stands(DiskFile.of(w.array())));
            }
        }
    }

    @Test
    void keysRecordsAndDepthsOfAnyValue() {
        for (int value : new int[] {0, 13, 4090, 0x8000, 0xFFFF}) {
            for (int node = 0; node < 7; node++) {
                for (int at : new int[] {8, 10, 14, 32, 34, 4096 - 2, 4096 - 4, 4096 - 6}) {
                    ByteBuffer w = ByteBuffer.wrap(SOUND.clone());
                    w.putShort(fork(w, node % 2 == 0 ? 272 : 352) + node / 2 * 4096 + at, (short) value);
                    stands(DiskFile.of(w.array()));
                }
            }
        }
    }

    @Test
    void forksWithoutEnd() {
        for (int fork : new int[] {112, 192, 272, 352, 432}) {
            ByteBuffer w = ByteBuffer.wrap(SOUND.clone());
            w.putLong(1024 + fork, Long.MAX_VALUE).putInt(1024 + fork + 12, -1);
            for (int i = 0; i < 8; i++) {
                w.putInt(1024 + fork + 16 + 8 * i, i * 3).putInt(1024 + fork + 20 + 8 * i, -1);
            }
            stands(DiskFile.of(w.array()));
            ByteBuffer large = ByteBuffer.wrap(SOUND.clone());
            large.putInt(1024 + 40, 1 << 25).putInt(1024 + 44, -1).putInt(1024 + 48, 0);
            stands(DiskFile.of(large.array()));
        }
    }

    @Test
    void anyBytesInTheTrees() {
        Random random = new Random(9);
        ByteBuffer w = ByteBuffer.wrap(SOUND);
        int[] places = {1024, fork(w, 112), fork(w, 192), fork(w, 272), fork(w, 272) + 4096, fork(w, 272) + 8192, fork(w, 352), fork(w, 352) + 4096,
            w.getInt(1024 + 12) * 512};
        for (int round = 0; round < 100; round++) {
            byte[] bytes = SOUND.clone();
            for (int i = 0; i < 6; i++) {
                bytes[places[random.nextInt(places.length)] + random.nextInt(random.nextBoolean() ? 256 : 4096)] = (byte) (random.nextBoolean() ? 0xFF : random.nextInt());
            }
            stands(DiskFile.of(bytes).unread(random.nextInt(3) == 0 ? SectorRanges.of(fork(w, 272) / 512 + random.nextInt(60), 1) : SectorRanges.EMPTY));
        }
    }
}
