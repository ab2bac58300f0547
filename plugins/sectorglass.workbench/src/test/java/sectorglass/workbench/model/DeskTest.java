package sectorglass.workbench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

import org.junit.jupiter.api.Test;

import sectorglass.decode.FormatCatalogue;
import sectorglass.disk.Disk;
import sectorglass.image.ByteRange;

class DeskTest {
    private final Deque<Runnable> work = new ArrayDeque<>();
    private final Deque<Runnable> window = new ArrayDeque<>();
    private final Desk desk = new Desk(work::add, window::add);

    private void run() {
        while (!work.isEmpty() || !window.isEmpty()) {
            (work.isEmpty() ? window : work).poll().run();
        }
    }

    private void open() {
        desk.show(OpenDisk.surveyed(null, new Disk(new Zeros(1 << 20), List.of(), List.of(), null), List.of()), new FormatCatalogue(List.of()));
        run();
    }

    @Test
    void addressesOutsideAreClamped() {
        open();
        desk.move(-5);
        assertEquals(0, desk.caret());
        desk.move(Long.MAX_VALUE);
        assertEquals((1 << 20) - 1, desk.caret());
        desk.select(10, Long.MAX_VALUE);
        assertEquals(new ByteRange(10, (1 << 20) - 10), desk.selection());
    }

    @Test
    void theTrailLeadsBackAndForward() {
        open();
        desk.goTo(512, "typed");
        desk.move(520);
        desk.goTo(4096, "pointer");
        desk.back();
        assertEquals(520, desk.caret(), "where the caret had walked to");
        desk.forward();
        assertEquals(4096, desk.caret());
        desk.back();
        desk.goTo(8192, "typed");
        assertFalse(desk.canGoForward());
        assertEquals(List.of(0L, 520L, 8192L), desk.trail().steps().stream().map(Step::address).toList());
    }

    @Test
    void onlyTheLastQuestionIsAnswered() {
        open();
        List<Long> told = new ArrayList<>();
        desk.add(new DeskListener() {
            @Override
            public void explained() {
                told.add(desk.caret());
            }
        });
        desk.move(1);
        desk.move(2);
        desk.move(3);
        assertFalse(desk.settled());
        run();
        assertTrue(desk.settled());
        assertEquals(List.of(3L), told);
    }

    @Test
    void closingForgetsEverything() {
        open();
        desk.goTo(512, "typed");
        desk.show(null, null);
        run();
        assertNull(desk.open());
        assertNull(desk.gloss());
        assertEquals(0, desk.caret());
        assertTrue(desk.settled());
    }
}
