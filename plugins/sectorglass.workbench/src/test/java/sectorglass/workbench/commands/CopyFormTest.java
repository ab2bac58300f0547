package sectorglass.workbench.commands;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.charset.StandardCharsets;

import org.junit.jupiter.api.Test;

import sectorglass.image.ReadState;
import sectorglass.image.SectorStates;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

class CopyFormTest {
    private final Window read = Window.ofRead(new byte[] {0x55, (byte) 0xAA, 0x41}, 512 + 510, 512);

    @Test
    void everyFormWritesTheBytes() {
        assertEquals("55 AA 41", CopyForm.HEX.write(read));
        // RFC 4648, section 4: 55 AA 41 are the four groups 21, 26, 41, 1
        assertEquals("VapB", CopyForm.BASE64.write(read));
        assertEquals("U\u00AAA", CopyForm.TEXT.write(read));
        assertEquals("contents: [0x55, 0xAA, 0x41]", CopyForm.CONTENTS.write(read));
        assertEquals("1\t510\t1022\t3\t55 AA 41", CopyForm.ROW.write(read));
    }

    @Test
    void unreadBytesAreNeverCopiedAsValues() {
        Window half = new Window(new byte[1024], 0, SectorStates.of(512, 0, ReadState.READ, ReadState.FAILED)).sub(511, 2);
        assertEquals("00 ??", CopyForm.HEX.write(half));
        assertThrows(UnreadException.class, () -> CopyForm.BASE64.write(half));
        assertThrows(UnreadException.class, () -> CopyForm.TEXT.write(half));
        assertThrows(UnreadException.class, () -> CopyForm.CONTENTS.write(half));
    }

    @Test
    void controlCharactersDoNotComeAlive() {
        Window escape = Window.ofRead("a\u001B[2J".getBytes(StandardCharsets.ISO_8859_1), 0, 512);
        assertEquals("a\\u{1B}[2J", CopyForm.TEXT.write(escape));
    }
}
