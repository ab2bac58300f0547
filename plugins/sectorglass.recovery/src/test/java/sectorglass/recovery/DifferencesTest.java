package sectorglass.recovery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.Random;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;

class DifferencesTest {
    private static final int SIZE = (2 << 20) + 700;

    private static Differences of(byte[] one, byte[] other, SectorRanges unread) {
        return new Differences(new ByteSearchTest.Memory(one, SectorRanges.EMPTY), 0, new ByteSearchTest.Memory(other, unread), 0, one.length);
    }

    private static List<Long> forward(Differences d) {
        List<Long> found = new ArrayList<>();
        for (OptionalLong at = d.next(-1, Progress.NONE); at.isPresent(); at = d.next(at.getAsLong(), Progress.NONE)) {
            found.add(at.getAsLong());
        }
        return found;
    }

    private static List<Long> backward(Differences d) {
        List<Long> found = new ArrayList<>();
        for (OptionalLong at = d.previous(d.length(), Progress.NONE); at.isPresent(); at = d.previous(at.getAsLong(), Progress.NONE)) {
            found.add(0, at.getAsLong());
        }
        return found;
    }

    @Test
    void stretchesAreFoundForwardAndBack() {
        byte[] other = new byte[SIZE];
        for (int at : new int[] {0, 1, 700, (1 << 20) - 1, 1 << 20, (1 << 20) + 1, SIZE - 1}) {
            other[at] = 1;
        }
        Differences d = of(new byte[SIZE], other, SectorRanges.EMPTY);
        List<Long> starts = List.of(0L, 700L, (1L << 20) - 1, SIZE - 1L);
        assertEquals(starts, forward(d));
        assertEquals(starts, backward(d));
        assertEquals(new Differences.Count(7, 4, 0), d.count(Progress.NONE));
    }

    @Test
    void whatOneSideDidNotReadIsNoDifference() {
        byte[] other = new byte[4 * 512];
        other[510] = 1;
        other[600] = 1;
        Differences d = of(new byte[4 * 512], other, SectorRanges.of(1, 1));
        assertEquals(List.of(510L), forward(d));
        assertEquals(List.of(510L), backward(d));
        assertEquals(new Differences.Count(1, 1, 512), d.count(Progress.NONE));
    }

    @Test
    void twoPlacesOfOneImageAreCompared() {
        byte[] bytes = new byte[8 * 512];
        bytes[3 * 512 + 5] = 7;
        ByteSearchTest.Memory image = new ByteSearchTest.Memory(bytes, SectorRanges.EMPTY);
        assertEquals(List.of(512L + 5), forward(new Differences(image, 0, image, 2 * 512, 2 * 512)));
    }

    @Property(tries = 200)
    void forwardAndBackAgreeWithALookAtEveryByte(@ForAll long seed) {
        Random random = new Random(seed);
        byte[] one = new byte[3 * 512];
        byte[] other = new byte[3 * 512];
        for (int i = 0; i < one.length; i++) {
            other[i] = (byte) (random.nextInt(3) == 0 ? 1 : 0);
        }
        SectorRanges unread = SectorRanges.of(random.nextInt(4), 1);
        List<Long> expected = new ArrayList<>();
        for (int i = 0; i < one.length; i++) {
            boolean here = other[i] != 0 && !unread.contains(i / 512);
            boolean before = i > 0 && other[i - 1] != 0 && !unread.contains((i - 1) / 512);
            if (here && !before) {
                expected.add((long) i);
            }
        }
        Differences d = of(one, other, unread);
        assertEquals(expected, forward(d));
        assertEquals(expected, backward(d));
        assertEquals(expected.size(), d.count(Progress.NONE).runs());
    }

    @Test
    void placesThatNobodyCanCountAreRefused() {
        ByteSearchTest.Memory image = new ByteSearchTest.Memory(new byte[512], SectorRanges.EMPTY);
        assertThrows(IllegalArgumentException.class, () -> new Differences(image, Long.MAX_VALUE, image, 0, 1));
    }
}
