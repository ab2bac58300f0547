package sectorglass.workbench;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;

import org.junit.jupiter.api.Test;

class ArgumentsTest {

    @Test
    void imagesAreToldFromOptions() {
        assertEquals(List.of(Path.of("a.img")), Arguments.images(new String[] {"-cssTheme", "dark", "a.img", "-consoleLog"}));
        assertEquals(List.of(), Arguments.images(null));
        assertEquals(List.of(), Arguments.images(new String[0]));
    }
}
