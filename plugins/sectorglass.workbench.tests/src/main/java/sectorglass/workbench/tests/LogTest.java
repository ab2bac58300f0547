package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;

import org.junit.jupiter.api.Test;

/** Last of all: nothing was logged as an error and no resource of the window toolkit was lost. */
class LogTest {

    @Test
    void nothingWentWrong() {
        System.gc();
        Ui.settle();
        assertEquals(List.of(), Runner.logged());
    }
}
