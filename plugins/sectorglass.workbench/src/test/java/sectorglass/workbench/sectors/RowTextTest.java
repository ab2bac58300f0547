package sectorglass.workbench.sectors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import org.junit.jupiter.api.Test;

class RowTextTest {

    @Test
    void fillerOfUnreadBytesIsNeverPrinted() {
        byte[] bytes = {0x5A, 0x00, 0x7F};
        boolean[] read = {true, false, false};
        assertEquals("5A      ", RowText.hex(bytes, 0, 3, read, false));
        assertNull(RowText.hex(bytes, 0, 3, read, true));
    }

    @Test
    void zerosAndOthersFillEachOthersGaps() {
        byte[] bytes = {0, 1, 2, 3, 4, 5, 6, 7, 8};
        boolean[] read = {true, true, true, true, true, true, true, true, true};
        assertEquals("   01 02 03 04 05 06 07  08", RowText.hex(bytes, 0, 9, read, false));
        assertEquals("00", RowText.hex(bytes, 0, 9, read, true).strip());
    }
}
