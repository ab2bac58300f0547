package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What mke2fs and debugfs write breaks no rule, and every rule can be decided. */
class SoundVolumesTest {

    @ParameterizedTest
    @ValueSource(strings = {"e2", "e3", "e4", "e4u", "e4h", "e4seed"})
    void nothingIsWrong(String name) {
        Judged judged = Judged.full(TestImage.of(ExtImages.image(name)));
        assertEquals("", judged.text());
    }
}
