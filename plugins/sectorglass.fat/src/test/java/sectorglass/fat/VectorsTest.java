package sectorglass.fat;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.disk.VolumeSite;
import sectorglass.testvolumes.DiskFile;

/** Algorithms held to values that other programs wrote. */
class VectorsTest {

    /** Names and checksums as mtools 4.0.32 wrote them into long-name slots. */
    @ParameterizedTest
    @CsvSource({"ALONGF~1BIN,30", "DEEPER~1TXT,8C", "README  TXT,73", "FOO     BAR,53", "HELLO   TXT,F1", "MIXED   TXT,46", "THIRTE~1NAM,1D"})
    void checksumsOfShortNames(String name, String sum) {
        assertEquals(Integer.parseInt(sum, 16), ShortName.checksum(name.getBytes(StandardCharsets.ISO_8859_1), 0));
    }

    /** A stored first byte 05 stands for E5 and is summed as stored. */
    @Test
    void aFirstByteOf05() {
        byte[] name = HexFormat.of().parseHex("054c4f4e474e7e31545854");
        assertEquals(0xF1, ShortName.checksum(name, 0));
        assertEquals("ÕLONGN~1".substring(0, 1), ShortName.text(name, 0, 0).substring(0, 1));
    }

    /** Microsoft FAT specification, "Date and Time Formats". */
    @ParameterizedTest
    @CsvSource({"0021,0000,1980-01-01T00:00", "279F,BF7D,1999-12-31T23:59:58", "2821,0000,2000-01-01T00:00", "466E,4B5A,2015-03-14T09:26:52",
            "505D,645C,2020-02-29T12:34:56", "576E,B1AA,2023-11-14T22:13:20", "FF9F,0000,2107-12-31T00:00"})
    void dates(String date, String time, String expected) {
        assertEquals(expected, Root.DosTime.of(Integer.parseInt(date, 16), Integer.parseInt(time, 16)).toString());
    }

    /** Packing of 12-bit entries: bytes of a FAT that mkfs.fat and mcopy wrote. */
    @Test
    void twelveBitEntries() {
        DiskFile image = Volumes.open("f12");
        Geometry geometry = Volumes.volume(image).found().geometry();
        FatTable table = new FatTable(new VolumeSite(image, image.all(), null), geometry, 0);
        int[] expected = {0xFF0, 0xFFF, 0xFFF, 0xFFF, 5, 6, 7, 8, 9, 10};
        for (int i = 0; i < expected.length; i++) {
            assertEquals(expected[i], table.entry(i), "entry " + i);
        }
    }

    /** Case bits as mtools writes them for "lower.txt" and "UPPER.txt". */
    @ParameterizedTest
    @CsvSource({"LOWER   TXT,24,lower.txt", "UPPER   TXT,16,UPPER.txt", "HELLO   TXT,0,HELLO.TXT", "'SUBDIR     ',0,SUBDIR"})
    void caseBits(String name, int bits, String expected) {
        assertEquals(expected, ShortName.text(name.getBytes(StandardCharsets.ISO_8859_1), 0, bits));
    }
}
