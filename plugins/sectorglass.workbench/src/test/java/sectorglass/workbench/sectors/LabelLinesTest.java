package sectorglass.workbench.sectors;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;

class LabelLinesTest {

    @Test
    void labelsThatFitStandOnTheFirstLine() {
        LabelLines.Placed placed = LabelLines.place(new int[] {0, 100, 200}, new int[] {90, 90, 90}, 300, 4, 20);
        assertArrayEquals(new int[] {0, 0, 0}, placed.line());
        assertEquals(1, placed.lines());
    }

    @Test
    void aLabelThatDoesNotFitGoesBelowItsRightNeighbour() {
        LabelLines.Placed placed = LabelLines.place(new int[] {0, 30, 60}, new int[] {80, 80, 80}, 300, 4, 20);
        assertArrayEquals(new int[] {2, 1, 0}, placed.line());
    }

    @Test
    void noLabelCrossesAnotherOneOrALeader() {
        SplittableRandom random = new SplittableRandom(7);
        for (int round = 0; round < 5000; round++) {
            int n = 1 + random.nextInt(16);
            int[] x = new int[n];
            int[] width = new int[n];
            for (int i = 0, at = 0; i < n; i++) {
                x[i] = at;
                at += 8 + random.nextInt(60);
                width[i] = 10 + random.nextInt(150);
            }
            LabelLines.Placed p = LabelLines.place(x, width, 600, 4, 20);
            for (int i = 0; i < n; i++) {
                for (int j = i + 1; j < n && p.line()[i] >= 0; j++) {
                    if (p.line()[j] >= p.line()[i]) {
                        assertTrue(x[i] + p.width()[i] <= x[j], "label " + i + " runs into label or leader " + j);
                    }
                }
                assertTrue(p.line()[i] < 0 || x[i] + p.width()[i] <= 600);
                assertTrue(p.line()[i] < p.lines());
            }
        }
    }
}
