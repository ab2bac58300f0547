package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;

/** What mke2fs and debugfs write breaks no rule, and every rule can be decided. */
class SoundVolumesTest {

    @ParameterizedTest
    @ValueSource(strings = {"e2", "e3", "e4", "e4u", "e4h", "e4seed", "e4meta", "e4grow"})
    void nothingIsWrong(String name) {
        Judged judged = Forced.full(DiskFile.of(ExtImages.image(name)));
        assertEquals("", judged.text());
    }
}
