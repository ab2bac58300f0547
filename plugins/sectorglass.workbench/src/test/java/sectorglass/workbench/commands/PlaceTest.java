package sectorglass.workbench.commands;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import org.junit.jupiter.api.Test;

class PlaceTest {

    @Test
    void numbersAreReadAsPeopleTypeThem() {
        assertEquals(2048, Place.parse("2048"));
        assertEquals(2048, Place.parse(" 2\u2009048 "));
        assertEquals(0x1C0, Place.parse("0x1C0"));
        assertEquals(0x1C0, Place.parse("1c0h"));
        assertEquals(9_223_372_036_854_775_807L, Place.parse("9,223,372,036,854,775,807"));
        assertNull(Place.parse("1C0"));
        assertNull(Place.parse(""));
        assertNull(Place.parse("9223372036854775808"));
    }
}
