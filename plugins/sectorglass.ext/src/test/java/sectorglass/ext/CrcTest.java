package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** Vectors of RFC 3720, B.4 (final inversion undone); CRC-16 computed by hand with the polynomial 0xA001. */
class CrcTest {

    @ParameterizedTest
    @CsvSource({"zeros, 756EC955, 9401", "ones, 9D5754BC, 3000", "rising, B92286B1, 576B", "falling, EEC024A3, A53C",
        "digits, 1CF96D7C, 4B37"})
    void vectors(String input, String crc32c, String crc16) {
        byte[] bytes = bytes(input);
        assertEquals(crc32c, String.format("%08X", Crc.raw(Crc.START, bytes)));
        assertEquals(crc16, String.format("%04X", Crc.crc16(0xFFFF, bytes, 0, bytes.length)));
    }

    private static byte[] bytes(String input) {
        if (input.equals("digits")) {
            return "123456789".getBytes(StandardCharsets.US_ASCII);
        }
        byte[] bytes = new byte[32];
        for (int i = 0; i < 32; i++) {
            bytes[i] = (byte) switch (input) {
                case "ones" -> 255;
                case "rising" -> i;
                case "falling" -> 31 - i;
                default -> 0;
            };
        }
        return bytes;
    }

    @Property(tries = 200)
    void chainsAnywhere(@ForAll int start, @ForAll byte[] bytes, @ForAll byte cut) {
        byte[] all = new byte[bytes.length + 100];
        System.arraycopy(bytes, 0, all, 50, bytes.length);
        int at = Math.floorMod(cut, all.length);
        int crc = start;
        for (byte b : all) {
            crc = Crc.raw(crc, new byte[] {b});
        }
        assertEquals(crc, Crc.raw(start, all));
        assertEquals(crc, Crc.raw(Crc.raw(start, all, 0, at), all, at, all.length - at));
    }
}
