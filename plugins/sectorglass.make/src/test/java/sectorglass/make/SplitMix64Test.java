package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;

class SplitMix64Test {

    @Test
    void givesTheNumbersOfTheJdkClassThatImplementsTheSamePaper() {
        // java.util.SplittableRandom(long) uses the golden gamma and the same mixing constants
        for (long seed : new long[] {0, 1, -1, 1234567, Long.MIN_VALUE}) {
            SplittableRandom reference = new SplittableRandom(seed);
            SplitMix64 numbers = new SplitMix64(seed);
            for (int i = 0; i < 100; i++) {
                assertEquals(reference.nextLong(), numbers.next());
            }
        }
    }

    @Test
    void partsDifferAndBoundsHold() {
        assertNotEquals(SplitMix64.derive(1, "a"), SplitMix64.derive(1, "b"));
        assertNotEquals(SplitMix64.derive(1, "a"), SplitMix64.derive(2, "a"));
        SplitMix64 numbers = new SplitMix64(5);
        int[] seen = new int[7];
        for (int i = 0; i < 7000; i++) {
            seen[numbers.below(7)]++;
        }
        for (int count : seen) {
            assertTrue(count > 800 && count < 1200, "count " + count);
        }
    }

    @Test
    void fillsTheSameBytesInOneGoAndAsAStreamOfOddParts() {
        byte[] one = new byte[100];
        new SplitMix64(9).fill(one, 0, 100);
        SplittableRandom reference = new SplittableRandom(9);
        for (int i = 0; i + 8 <= 100; i += 8) {
            long expected = reference.nextLong();
            for (int k = 0; k < 8; k++) {
                assertEquals((byte) (expected >>> 8 * k), one[i + k]);
            }
        }
    }
}
