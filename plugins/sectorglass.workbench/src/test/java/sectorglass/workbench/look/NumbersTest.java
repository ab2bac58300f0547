package sectorglass.workbench.look;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class NumbersTest {

    @Test
    void digitsStandInGroupsOfThree() {
        assertEquals("1\u2009234\u2009567", Numbers.grouped(1_234_567));
        assertEquals("999", Numbers.grouped(999));
        assertEquals("\u22121\u2009000", Numbers.grouped(-1000));
    }

    @Test
    void sizesAreGivenInBothUnits() {
        assertEquals("1 byte", Numbers.size(1));
        assertEquals("512 bytes", Numbers.size(512));
        // IEC 80000-13: MiB = 2^20 bytes
        assertEquals("268 MB (256 MiB)", Numbers.size(256L << 20));
        assertEquals("1 TB (931 GiB)", Numbers.size(1_000_000_000_000L));
        assertEquals("2.2 TB (2 TiB)", Numbers.size(2L << 40));
    }

    @Test
    void aPlaceIsSectorAndByteInHex() {
        assertEquals("LBA 1 \u00B7 010", Numbers.place(528, 512));
        assertEquals("LBA 39\u2009062\u2009499\u2009999 \u00B7 1FF", Numbers.place(20_000_000_000_000L - 1 - (20_000_000_000_000L % 512), 512));
    }
}
