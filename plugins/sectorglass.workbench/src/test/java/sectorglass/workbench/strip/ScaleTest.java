package sectorglass.workbench.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.junit.jupiter.api.Test;

class ScaleTest {
    private static final List<Piece> ONE_GAP = List.of(new Piece(0, 39_062_500_000L, null, -1));

    @Test
    void allPiecesFillTheWidth() {
        List<Piece> pieces = List.of(new Piece(0, 34, null, -1), new Piece(34, 1_000_000_000L, null, -1), new Piece(1_000_000_000L, 1_000_000_033L, null, -1));
        Scale scale = Scale.of(pieces, 0, 1_000_000_033L, 1000, 100, 5);
        assertEquals(5, scale.right(0), 0.001, "a small gap keeps its least width");
        assertEquals(1000, scale.right(2), 0.001);
    }

    @Test
    void sectorsAndPixelsMapBothWays() {
        Scale scale = Scale.of(ONE_GAP, 0, 39_062_500_000L, 2000, 100, 5);
        for (long lba : new long[] {0, 1, 19_531_250_000L, 39_062_499_999L}) {
            long back = scale.lba(scale.x(lba));
            assertTrue(Math.abs(back - lba) <= 39_062_500_000L / 2000, lba + " came back as " + back);
        }
        assertEquals(39_062_499_999L, scale.lba(5000));
        assertEquals(0, scale.lba(-3));
    }

    @Test
    void morePiecesThanPixelsShrinkTogether() {
        List<Piece> many = new java.util.ArrayList<>();
        for (int i = 0; i < 500; i++) {
            many.add(new Piece(i * 10L, i * 10L + 10, null, -1));
        }
        Scale scale = Scale.of(many, 0, 5000, 300, 100, 5);
        assertEquals(300, scale.right(499), 0.001);
    }
}
