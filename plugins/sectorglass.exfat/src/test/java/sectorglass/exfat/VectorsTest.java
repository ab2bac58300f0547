package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HexFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.testvolumes.DiskFile;

/** Algorithms held to values that fsck.exfat 1.2.0 accepts. */
class VectorsTest {

    private static int sum16(byte[] bytes) {
        int sum = 0;
        for (byte b : bytes) {
            sum = SetSum.step(sum, b & 0xFF);
        }
        return sum;
    }

    @Test
    void stepsOfTheSums() {
        assertEquals(0x2006, sum16(new byte[] {1, 2, 3, 4}));
        assertEquals(0x03FC, sum16(HexFormat.of().parseHex("ffffffffffffffff")));
        int sum = 0;
        for (int i = 0; i < 8; i++) {
            sum = BootRegion.step(sum, 0xFF);
        }
        assertEquals(0x020001FC, sum);
    }

    /** Set of "hello.txt", and of the deleted "gone.txt": BAA2 as found, C0A2 with the bits set again. */
    @Test
    void setChecksums() {
        ExfatVolume volume = Volumes.volume(Volumes.open());
        EntrySet set = new EntrySet();
        set.at(volume.root().directory(), 3, 3);
        assertEquals(0x113A, set.checksum(false));
        assertEquals("hello.txt", set.name());
        set.at(volume.root().directory(), 19, 3);
        assertEquals(0xBAA2, set.checksum(false));
        assertEquals(0xC0A2, set.checksum(true));
        assertEquals(0xC0A2, set.storedChecksum());
    }

    /** The recommended up-case table, as mkfs.exfat writes it: 5836 bytes, E619D30D (section 7.2.5.1). */
    @Test
    void recommendedUpcaseTable() {
        byte[] image = Volumes.empty();
        byte[] table = java.util.Arrays.copyOfRange(image, Volumes.cluster(3), Volumes.cluster(3) + 5836);
        assertEquals(Upcase.RECOMMENDED, Upcase.checksum(table));
        Upcase upcase = Upcase.of(table);
        assertEquals(-1, upcase.firstOdd());
        assertEquals('É', upcase.capitals()['é']);
        assertTrue(upcase.known() > 0x4E00);
    }

    @ParameterizedTest
    @CsvSource({"a,8020", "A,8020", "Sub,382E", "hello.txt,3046", "A Long File Name.bin,F918", "frag.bin,BAEE", "empty.dat,5671",
            "gone.txt,2B7E", "été note.txt,7E79"})
    void nameHashes(String name, String hash) {
        byte[] image = Volumes.empty();
        Upcase upcase = Upcase.of(java.util.Arrays.copyOfRange(image, Volumes.cluster(3), Volumes.cluster(3) + 5836));
        int sum = 0;
        for (char c : name.toCharArray()) {
            int up = upcase.capitals()[c];
            sum = SetSum.step(SetSum.step(sum, up & 0xFF), up >> 8);
        }
        assertEquals(Integer.parseInt(hash, 16), sum);
    }

    /** UtcOffset bytes (section 7.4.10). */
    @ParameterizedTest
    @CsvSource({"80,2020-02-29T12:34:56Z", "84,2020-02-29T12:34:56+01:00", "96,2020-02-29T12:34:56+05:30", "BF,2020-02-29T12:34:56+15:45",
            "C0,2020-02-29T12:34:56-16:00", "EC,2020-02-29T12:34:56-05:00", "FF,2020-02-29T12:34:56-00:15", "00,2020-02-29T12:34:56"})
    void zones(String zone, String expected) {
        byte[] image = Volumes.filled();
        image[0x23060 + 23] = (byte) Integer.parseInt(zone, 16);
        image[0x23060 + 21] = 0;
        Directory directory = Volumes.volume(DiskFile.of(image, 512)).root().directory();
        assertEquals(expected, TreeScan.stamp(directory, 3, 12, 21, 23).toString());
    }
}
