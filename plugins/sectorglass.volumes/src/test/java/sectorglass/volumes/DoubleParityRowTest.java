package sectorglass.volumes;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

import sectorglass.image.SectorImage;
import sectorglass.testvolumes.DiskFile;

/** Both parities: places, numbers and the ways back to a lost chunk. */
class DoubleParityRowTest {

    /** Places as the Linux kernel computes them, drivers/md/raid5.c, raid5_compute_sector (from memory): P, Q, then the data disks. */
    @ParameterizedTest
    @CsvSource({"LEFT_SYMMETRIC, 0, 4 0 1 2 3", "LEFT_SYMMETRIC, 1, 3 4 0 1 2", "LEFT_SYMMETRIC, 4, 0 1 2 3 4", "LEFT_ASYMMETRIC, 0, 4 0 1 2 3",
        "LEFT_ASYMMETRIC, 1, 3 4 0 1 2", "LEFT_ASYMMETRIC, 2, 2 3 0 1 4", "RIGHT_SYMMETRIC, 1, 1 2 3 4 0", "RIGHT_ASYMMETRIC, 1, 1 2 0 3 4",
        "RIGHT_ASYMMETRIC, 4, 4 0 1 2 3", "FIRST, 3, 0 1 2 3 4", "LAST, 3, 3 4 0 1 2"})
    void placesAreThoseOfTheKernel(StripeLayout.Parity parity, long row, String places) {
        DoubleParityRow roles = DoubleParityRow.of(parity, row, 5);
        StringBuilder found = new StringBuilder(roles.first() + " " + roles.second());
        for (int disk : roles.data()) {
            found.append(' ').append(disk);
        }
        assertEquals(places, found.toString());
    }

    @Test
    void productsAreThoseOfTheField() {
        // H. P. Anvin, "The mathematics of RAID-6": 2 times 80 is 1D; 2 to the power 8 is 1D; the generator has 255 powers
        assertEquals(0x1D, ParityField.multiply(2, 0x80));
        assertEquals(0x1D, ParityField.power(8));
        assertEquals(1, ParityField.power(255));
        for (int a = 1; a < 256; a++) {
            for (int b = 1; b < 256; b += 7) {
                assertEquals(a, ParityField.divide(ParityField.multiply(a, b), b));
                assertEquals(slow(a, b), ParityField.multiply(a, b));
            }
        }
    }

    private static int slow(int a, int b) {
        int sum = 0;
        for (int bit = 0; bit < 8; bit++) {
            sum ^= (b >> bit & 1) != 0 ? a << bit : 0;
        }
        for (int bit = 14; bit >= 8; bit--) {
            sum ^= (sum >> bit & 1) != 0 ? 0x11D << bit - 8 : 0;
        }
        return sum;
    }

    @ParameterizedTest
    @EnumSource(value = StripeLayout.Parity.class, mode = EnumSource.Mode.EXCLUDE, names = "NONE")
    void everyWayGivesTheChunk(StripeLayout.Parity parity) {
        Random random = new Random(6);
        for (int disks = 4; disks <= 7; disks++) {
            for (long row = 0; row < disks; row++) {
                DoubleParityRow roles = DoubleParityRow.of(parity, row, disks);
                byte[][] held = new byte[disks][512];
                for (int disk : roles.data()) {
                    random.nextBytes(held[disk]);
                    for (int i = 0; i < 512; i++) {
                        held[roles.first()][i] ^= held[disk][i];
                        held[roles.second()][i] ^= (byte) slow(held[disk][i] & 0xFF, ParityField.power(roles.number()[disk]));
                    }
                }
                List<SectorImage> images = new ArrayList<>();
                for (byte[] one : held) {
                    images.add(DiskFile.of(one));
                }
                for (int disk : roles.data()) {
                    List<SectorImage> ways = roles.sources(images, disk);
                    assertEquals(3 + roles.data().length - 1, ways.size());
                    for (SectorImage way : ways) {
                        byte[] got = new byte[512];
                        assertTrue(way.read(0, got, 0, 512).missing(0, 512).isEmpty());
                        assertArrayEquals(held[disk], got);
                    }
                }
            }
        }
    }
}
