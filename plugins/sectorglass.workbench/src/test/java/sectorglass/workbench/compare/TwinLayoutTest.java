package sectorglass.workbench.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class TwinLayoutTest {

    @Test
    void whatFitsIsShown() {
        assertEquals(16, TwinLayout.of(8, 18, 20, 1900).columns());
        assertTrue(TwinLayout.of(8, 18, 20, 1900).text());
        TwinLayout narrow = TwinLayout.of(8, 18, 20, 800);
        assertEquals(8, narrow.columns());
        assertTrue(narrow.right() <= 800);
        assertEquals(4, TwinLayout.of(8, 18, 20, 100).columns(), "the least there is");
    }

    @Test
    void aPointerHitsTheSameColumnOnBothSides() {
        TwinLayout layout = TwinLayout.of(8, 18, 20, 1900);
        for (int column = 0; column < 16; column++) {
            assertEquals(column, layout.columnAt(layout.x(column) + 3));
            assertEquals(column, layout.columnAt(layout.half() + layout.x(column) + 3));
        }
    }
}
