package sectorglass.workbench.pages;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

import org.junit.jupiter.api.Test;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

class PagesTest {
    private static final int SIZE = 512;
    private static final int SECTORS = 4 * Pages.PAGE / SIZE + 1;

    /** Each byte holds the number of its sector; sector 40 failed. */
    private final class Slow implements SectorImage {
        @Override
        public String name() {
            return "slow";
        }

        @Override
        public int sectorSize() {
            return SIZE;
        }

        @Override
        public long bytes() {
            return (long) SECTORS * SIZE;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            asked.add(firstByte / Pages.PAGE);
            ReadState[] states = new ReadState[(length + SIZE - 1) / SIZE];
            for (int i = 0; i < states.length; i++) {
                long lba = firstByte / SIZE + i;
                states[i] = lba == 40 ? ReadState.FAILED : ReadState.READ;
                java.util.Arrays.fill(into, offset + i * SIZE, offset + Math.min(length, (i + 1) * SIZE), lba == 40 ? 0 : (byte) lba);
            }
            return SectorStates.of(SIZE, firstByte / SIZE, states);
        }

        @Override
        public ReadState state(long lba) {
            return ReadState.READ;
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            return SectorRanges.EMPTY;
        }
    }

    private final List<Long> asked = new ArrayList<>();
    private final Deque<Runnable> reading = new ArrayDeque<>();
    private final Deque<Runnable> window = new ArrayDeque<>();
    private int ready;
    private final Pages pages = new Pages(new Slow(), reading::add, window::add, () -> ready++);

    private void work() {
        while (!reading.isEmpty() || !window.isEmpty()) {
            (reading.isEmpty() ? window : reading).poll().run();
        }
    }

    @Test
    void askingReadsNothingAndWhatIsComingHasNoValue() {
        Known known = pages.in(0, 1024);
        assertEquals(List.of(), asked, "the thread that asks does not read");
        assertFalse(known.complete());
        assertNull(known.state(0));
        assertFalse(known.read(0));
        assertEquals(1024, known.run(0, 1024));
    }

    @Test
    void pagesComeAndAreToldOfOnce() {
        pages.in(SIZE, Pages.PAGE);
        work();
        assertEquals(1, ready, "two pages seen, one read ahead: one call");
        assertEquals(List.of(0L, 1L, 2L), asked);
        Known known = pages.in(3 * SIZE - 1, 2);
        assertTrue(known.complete());
        assertArrayEquals(new byte[] {2, 3}, known.bytes());
    }

    @Test
    void statesFollowTheBytes() {
        pages.in(39 * SIZE, 3 * SIZE);
        work();
        Known known = pages.in(39 * SIZE, 3 * SIZE);
        assertTrue(known.complete());
        assertFalse(known.clean());
        assertEquals(ReadState.READ, known.state(SIZE - 1));
        assertEquals(ReadState.FAILED, known.state(SIZE));
        assertEquals(SIZE, known.run(SIZE, 3 * SIZE));
        assertEquals(ReadState.READ, known.state(2 * SIZE));
    }

    @Test
    void whatIsSeenNowIsReadBeforeWhatWasSeenBefore() {
        pages.in(0, 16);
        pages.in(3 * Pages.PAGE, 16);
        work();
        assertEquals(3L, asked.get(0));
        assertFalse(asked.contains(0L), "nobody looks there any more");
    }

    @Test
    void theEndOfTheImageIsClipped() {
        long last = (long) SECTORS * SIZE - 4;
        pages.in(last, 100);
        work();
        Known known = pages.in(last, 100);
        assertEquals(4, known.bytes().length);
        assertTrue(known.complete());
    }

    @Test
    void aClosedOneAsksForNothing() {
        pages.close();
        pages.in(0, 16);
        work();
        assertEquals(List.of(), asked);
    }
}
