package sectorglass.workbench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.nio.charset.StandardCharsets;

import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

class ChecksumsTest {
    private record Digits(ReadState state) implements SectorImage {
        @Override
        public String name() {
            return "digits";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public long bytes() {
            return 512;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            byte[] digits = "123456789".getBytes(StandardCharsets.US_ASCII);
            for (int i = 0; i < length && firstByte + i < digits.length; i++) {
                into[offset + i] = digits[(int) firstByte + i];
            }
            return SectorStates.of(512, 0, state);
        }

        @Override
        public ReadState state(long lba) {
            return state;
        }

        @Override
        public SectorRanges inState(ReadState wanted, SectorRange within) {
            return SectorRanges.EMPTY;
        }
    }

    @Test
    void theDigitsHaveTheirPublishedChecksums() {
        Checksums sums = Checksums.of(new Digits(ReadState.READ), new ByteRange(0, 9), () -> false);
        assertEquals("CBF43926", sums.crc32(), "check value of CRC-32 in ISO/IEC 13239, as catalogues of CRCs list it");
        assertEquals("15e2b0d3c33891ebb0f1ef609ec419420c20e320ce94c65fbc8c3312448eb225", sums.sha256(),
                "printf 123456789 | sha256sum, GNU coreutils");
    }

    @Test
    void whatWasNotReadHasNone() {
        Checksums sums = Checksums.of(new Digits(ReadState.FAILED), new ByteRange(0, 9), () -> false);
        assertNull(sums.crc32());
        assertNull(sums.sha256());
        assertEquals(1, sums.unreadSectors());
    }
}
