package sectorglass.fat;

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
        VolumeExercise.run(new FatVolumeProvider(), Volumes.RULES, image);
    }

    /** Flips bytes where structures stand: boot sector, FSInfo, FATs, root directory, SUBDIR. */
    @ParameterizedTest
    @CsvSource({"f12,0,512,1", "f12,512,64,2", "f12,9728,320,3", "f12,16896,160,4", "f16,0,64,5", "f16,2048,64,6", "f16,34816,320,7", "f32,0,90,8",
            "f32,16384,80,9", "f32,661504,320,10", "f32,662016,160,11", "f32k,0,90,12"})
    void mutatedVolumesGiveFindings(String name, long from, int length, long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 40; round++) {
            DiskFile image = Volumes.open(name);
            StringBuilder done = new StringBuilder();
            for (int i = 0; i <= random.nextInt(4); i++) {
                long at = from + random.nextInt(length);
                int value = random.nextInt(3) == 0 ? 0xFF : random.nextInt(3) == 0 ? 0 : random.nextInt(256);
                image.plant(at, value);
                done.append(at).append('=').append(value).append(' ');
            }
            assertTimeoutPreemptively(Duration.ofSeconds(20), () -> exercise(image), () -> "seed " + seed + ": " + done);
        }
    }

    @ParameterizedTest
    @CsvSource({"f12,1", "f16,2", "f32,3"})
    void partlyReadVolumesGiveFindings(String name, long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 20; round++) {
            DiskFile image = Volumes.open(name);
            for (int i = 0; i < 6; i++) {
                image.lose(random.nextInt(round % 2 == 0 ? 60 : 1400), 1 + random.nextInt(4));
            }
            assertTimeoutPreemptively(Duration.ofSeconds(20), () -> exercise(image), "seed " + seed);
        }
    }

    /** Counts and sizes at their extremes on a short image. */
    @Test
    void extremeCountsEndAtOnce() {
        long[][] fields = {{11, 2}, {13, 1}, {14, 2}, {16, 1}, {17, 2}, {19, 2}, {22, 2}, {32, 4}, {36, 4}, {44, 4}, {48, 2}, {50, 2}};
        for (String name : new String[] {"f12", "f16", "f32"}) {
            for (long[] field : fields) {
                for (int fill : new int[] {0, 1, 0x7F, 0xFF}) {
                    DiskFile image = Volumes.open(name);
                    for (int i = 0; i < field[1]; i++) {
                        image.plant(field[0] + i, fill == 1 && i > 0 ? 0 : fill);
                    }
                    assertTimeoutPreemptively(Duration.ofSeconds(20), () -> exercise(image), name + " field " + field[0] + " filled with " + fill);
                }
            }
        }
    }

    @Test
    void everyCutOfTheImageIsTold() {
        byte[] whole = Volumes.open("f12").window(0, 40_000).raw(0, 40_000);
        for (int length = 0; length < whole.length; length += 97) {
            DiskFile image = DiskFile.of(java.util.Arrays.copyOf(whole, length), 512);
            assertTimeoutPreemptively(Duration.ofSeconds(10), () -> exercise(image), "cut at " + length);
        }
    }

    /** A million entries of one directory ring: every entry of a directory is a folder that starts at the directory itself. */
    @Test
    void aDirectoryFullOfItselfEnds() {
        DiskFile image = Volumes.open("f32");
        byte[] entry = image.window(0xA1800 + 32, 32).raw(0, 32);
        for (int slot = 2; slot < 16; slot++) {
            for (int i = 0; i < 32; i++) {
                image.plant(0xA1A00 + slot * 32 + i, i == 0 ? 'A' + slot : entry[i] & 0xFF);
            }
        }
        assertTimeoutPreemptively(Duration.ofSeconds(10), () -> exercise(image));
    }
}
