package sectorglass.workbench.sectors;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

import org.junit.jupiter.api.Test;

class TextColumnTest {

    private static String cells(TextColumn column, byte[] bytes, int from, int count) {
        boolean[] read = new boolean[bytes.length];
        Arrays.fill(read, true);
        return new String(column.cells(bytes, from, count, read));
    }

    @Test
    void asciiShowsSevenBits() {
        assertEquals("A\u00B7\u00B7~\u00B7", cells(TextColumn.ASCII, new byte[] {'A', 0, (byte) 0xE4, '~', 0x7F}, 0, 5));
    }

    @Test
    void latin1ShowsUmlauts() {
        assertEquals("\u00E4\u00B7", cells(TextColumn.LATIN_1, new byte[] {(byte) 0xE4, (byte) 0x85}, 0, 2));
    }

    @Test
    void utf8StandsInTheCellOfTheFirstByteAndReachesBeyondTheRow() {
        byte[] bytes = "x\u00E4\u20AC".getBytes(StandardCharsets.UTF_8);
        assertEquals("x\u00E4 \u20AC", cells(TextColumn.UTF_8, bytes, 0, 4));
        assertEquals("\u00B7", cells(TextColumn.UTF_8, new byte[] {(byte) 0xC3}, 0, 1), "a cut-off sequence is no character");
    }

    @Test
    void utf16TakesTwoBytes() {
        assertEquals("A B ", cells(TextColumn.UTF_16LE, "AB".getBytes(StandardCharsets.UTF_16LE), 0, 4));
    }

    @Test
    void whatWouldDisturbNeighboursIsADot() {
        byte[] hebrew = "\u05D0".getBytes(StandardCharsets.UTF_8);
        assertEquals("\u00B7 ", cells(TextColumn.UTF_8, hebrew, 0, 2));
        byte[] override = "\u202E".getBytes(StandardCharsets.UTF_8);
        assertEquals("\u00B7  ", cells(TextColumn.UTF_8, override, 0, 3));
    }

    @Test
    void anUnreadByteIsBlank() {
        assertEquals(" B", new String(TextColumn.ASCII.cells(new byte[] {'A', 'B'}, 0, 2, new boolean[] {false, true})));
    }
}
