package sectorglass.workbench.sectors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ScrollTest {

    @ParameterizedTest
    @ValueSource(longs = {1, 30, 31, 999_999, 1_000_000, 1_000_001, 1_250_000_000_000L, Long.MAX_VALUE / 16})
    void bothEndsAreExactAndTheMapRises(long rows) {
        Scroll scroll = new Scroll(rows, 30);
        assertEquals(0, scroll.top(0));
        assertEquals(scroll.last(), scroll.top(scroll.maximum() - (rows > 1_000_000 ? scroll.thumb() : 0)));
        assertEquals(scroll.last(), scroll.top(scroll.position(scroll.last())));
        long before = -1;
        for (int position = 0; position <= scroll.maximum(); position += Math.max(1, scroll.maximum() / 1000)) {
            long top = scroll.top(position);
            assertTrue(top >= before && top <= scroll.last(), "position " + position);
            before = top;
        }
        assertTrue(scroll.position(scroll.last()) + scroll.thumb() <= scroll.maximum());
    }
}
