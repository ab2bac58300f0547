package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Fails on purpose: run alone, it shows that a failing test fails the build. */
class MustFail {

    @Test
    void fails() {
        assertEquals("this", "that");
    }
}
