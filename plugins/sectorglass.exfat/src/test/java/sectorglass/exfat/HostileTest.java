package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.time.Duration;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.VolumeExercise;

/** Nothing on a disk makes the code hang, fail or point outside: mutated, extreme and partly read volumes. */
class HostileTest {

    private static void exercise(DiskFile image) {
        VolumeExercise.run(new ExfatVolumeProvider(), Volumes.RULES, image);
    }

    /** Flips bytes where structures stand: boot sector, backup, FAT, bitmap, up-case table, root directory, Sub. */
    @ParameterizedTest
    @CsvSource({"0,512,1", "6144,128,2", "65536,80,3", "131072,16,4", "135168,5836,5", "143360,704,6", "143360,96,7", "176128,96,8"})
    void mutatedVolumesGiveFindings(int from, int length, long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 60; round++) {
            byte[] image = Volumes.filled();
            StringBuilder done = new StringBuilder();
            for (int i = 0; i <= random.nextInt(4); i++) {
                int at = from + random.nextInt(length);
                int value = random.nextInt(3) == 0 ? 0xFF : random.nextInt(3) == 0 ? 0 : random.nextInt(256);
                image[at] = (byte) value;
                done.append(at).append('=').append(value).append(' ');
            }
            assertTimeoutPreemptively(Duration.ofSeconds(20), () -> exercise(DiskFile.of(image, 512)), () -> "seed " + seed + ": " + done);
        }
    }

    /** The same with checksums made right, so that the values reach the code behind them. */
    @ParameterizedTest
    @CsvSource({"1", "2", "3"})
    void mutatedVolumesWithRightChecksumsGiveFindings(long seed) {
        Random random = new Random(seed);
        int[] sets = {0x23060, 0x230C0, 0x23140, 0x231A0, 0x23200, 0x23260};
        for (int round = 0; round < 60; round++) {
            byte[] image = Volumes.filled();
            StringBuilder done = new StringBuilder();
            for (int i = 0; i <= random.nextInt(4); i++) {
                int set = sets[random.nextInt(sets.length)];
                int at = set + 4 + random.nextInt(60);
                image[at] = (byte) (random.nextBoolean() ? 0xFF : random.nextInt(256));
                Volumes.fixSet(image, set);
                int field = 72 + random.nextInt(40);
                Volumes.both(image, field, random.nextInt(3) == 0 ? random.nextInt(256) : image[field] & 0xFF);
                done.append(at).append('/').append(field).append(' ');
            }
            assertTimeoutPreemptively(Duration.ofSeconds(20), () -> exercise(DiskFile.of(image, 512)), () -> "seed " + seed + ": " + done);
        }
    }

    @ParameterizedTest
    @CsvSource({"1", "2"})
    void partlyReadVolumesGiveFindings(long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 30; round++) {
            DiskFile image = Volumes.open();
            for (int i = 0; i < 6; i++) {
                image.lose(random.nextInt(round % 2 == 0 ? 24 : 400), 1 + random.nextInt(4));
            }
            assertTimeoutPreemptively(Duration.ofSeconds(20), () -> exercise(image), "seed " + seed);
        }
    }

    /** Counts and sizes at their extremes, checksums made right. */
    @Test
    void extremeCountsEndAtOnce() {
        int[][] fields = {{64, 8}, {72, 8}, {80, 4}, {84, 4}, {88, 4}, {92, 4}, {96, 4}, {108, 1}, {109, 1}, {110, 1}};
        for (int[] field : fields) {
            for (int fill : new int[] {0, 1, 0x7F, 0xFF}) {
                byte[] image = Volumes.filled();
                for (int i = 0; i < field[1]; i++) {
                    Volumes.both(image, field[0] + i, fill == 1 && i > 0 ? 0 : fill);
                }
                assertTimeoutPreemptively(Duration.ofSeconds(20), () -> exercise(DiskFile.of(image, 512)),
                        "field " + field[0] + " filled with " + fill);
            }
        }
    }

    /** Most clusters a volume can claim, and files that claim all of them, on an image of 4 MiB. */
    @Test
    void hugeClaimsEndAtOnce() {
        byte[] image = Volumes.filled();
        Volumes.both(image, 72, 0, 0, 0, 0, 8, 0, 0, 0);
        Volumes.both(image, 84, 0, 0, 0, 2);
        Volumes.both(image, 92, 0, 0, 0, 0xFF);
        for (int set : new int[] {0x23060, 0x230C0}) {
            for (int i = 8; i < 14; i++) {
                image[set + 32 + i] = (byte) 0xFF;
                image[set + 32 + 16 + i] = (byte) 0xFF;
            }
            image[set + 32 + 13] = 0;
            image[set + 32 + 29] = 0;
            Volumes.fixSet(image, set);
        }
        assertTimeoutPreemptively(Duration.ofSeconds(30), () -> exercise(DiskFile.of(image, 512)));
    }

    @Test
    void everyCutOfTheImageIsTold() {
        byte[] whole = Volumes.filled();
        for (int length = 0; length < 200_000; length += 997) {
            DiskFile image = DiskFile.of(java.util.Arrays.copyOf(whole, length), 512);
            assertTimeoutPreemptively(Duration.ofSeconds(10), () -> exercise(image), "cut at " + length);
        }
    }
}
