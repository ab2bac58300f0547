package sectorglass.workbench.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.Stream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Contrast by WCAG 2.2: text 4.5 (1.4.3), marks 3.0 (1.4.11). */
class ToneTest {

    @Test
    void contrastIsAsWcagDefinesIt() {
        assertEquals(21, Tone.contrast(0x000000, 0xFFFFFF), 0.001, "black on white, WCAG 2.2 \"contrast ratio\"");
        assertEquals(1, Tone.contrast(0x777777, 0x777777), 0.001);
        assertEquals(4.48, Tone.contrast(0x777777, 0xFFFFFF), 0.005, "a widely known grey just below the limit, from memory");
    }

    static Stream<Arguments> texts() {
        Tone[] grounds = {Tone.PAGE, Tone.MARGIN, Tone.FIELD, Tone.SELECTED, Tone.MARKED};
        return Stream.of(
                Stream.of(grounds).map(ground -> Arguments.of(Tone.INK, ground)),
                Stream.of(grounds).map(ground -> Arguments.of(Tone.QUIET, ground)),
                Stream.of(Tone.PARTITION, Tone.PARTITION_NEXT).map(ground -> Arguments.of(Tone.INK, ground)),
                Stream.of(Arguments.of(Tone.NAME, Tone.PAGE), Arguments.of(Tone.MARK, Tone.PAGE), Arguments.of(Tone.WRONG, Tone.PAGE), Arguments.of(Tone.LINK, Tone.PAGE),
                        Arguments.of(Tone.ON_CARET, Tone.CARET)))
                .flatMap(s -> s);
    }

    @ParameterizedTest(name = "{0} on {1}")
    @MethodSource("texts")
    void textCanBeRead(Tone text, Tone ground) {
        for (boolean dark : new boolean[] {false, true}) {
            double contrast = Tone.contrast(text.rgb(dark), ground.rgb(dark));
            assertTrue(contrast >= 4.5, text + " on " + ground + (dark ? " dark " : " light ") + contrast);
        }
    }

    static Stream<Arguments> marks() {
        return Stream.of(Tone.BRACKET, Tone.BRACKET_NEXT, Tone.OUTLINE, Tone.CARET, Tone.UNREAD, Tone.COSMETIC)
                .map(mark -> Arguments.of(mark, Tone.PAGE));
    }

    @ParameterizedTest(name = "{0} on {1}")
    @MethodSource("marks")
    void marksCanBeSeen(Tone mark, Tone ground) {
        for (boolean dark : new boolean[] {false, true}) {
            double contrast = Tone.contrast(mark.rgb(dark), ground.rgb(dark));
            assertTrue(contrast >= 3, mark + " on " + ground + (dark ? " dark " : " light ") + contrast);
        }
    }
}
