package sectorglass.disk;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;

import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

class ExtentContentTest {
    /** Sector n is filled with n; sectors 5 and 9 were not read, filler stands there. */
    private static final SectorImage IMAGE = new SectorImage() {
        @Override
        public String name() {
            return "numbers";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public long bytes() {
            return 20 * 512;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            for (int i = 0; i < length; i++) {
                into[offset + i] = (byte) ((firstByte + i) / 512);
            }
            long first = firstByte / 512;
            ReadState[] states = new ReadState[(int) ((firstByte + length - 1) / 512 - first + 1)];
            Arrays.setAll(states, i -> state(first + i));
            return SectorStates.of(512, first, states);
        }

        @Override
        public ReadState state(long lba) {
            return lba == 5 || lba == 9 || lba >= 20 ? ReadState.UNREAD : ReadState.READ;
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            SectorRanges.Builder builder = new SectorRanges.Builder();
            for (long lba = within.first(); lba < within.end(); lba++) {
                if (state(lba) == state) {
                    builder.add(lba, 1);
                }
            }
            return builder.build();
        }
    };

    @Test
    void missingBytesAreNamedAndLeftZero() {
        Content content = new ExtentContent(IMAGE, 3000, List.of(Extent.plain(0, 1024, 4 * 512), Extent.hole(1024, 512),
                Extent.plain(1536, 1024, 8 * 512)));
        List<ByteRange> missing = List.of(new ByteRange(512, 512), new ByteRange(2048, 952));
        assertEquals(missing, content.missing());
        assertEquals(3000 - 512 - 952, content.readBytes());
        assertEquals(FileState.DAMAGED, content.state());
        byte[] bytes = new byte[3000];
        Arrays.fill(bytes, (byte) 99);
        assertEquals(missing, content.read(0, bytes, 0, 3000));
        byte[] expected = new byte[3000];
        Arrays.fill(expected, 0, 512, (byte) 4);
        Arrays.fill(expected, 1536, 2048, (byte) 8);
        assertArrayEquals(expected, bytes);
        assertEquals(List.of(new ByteRange(2048, 100)), content.read(2000, bytes, 0, 148));
    }

    @Test
    void statesFollowFromWhatWasRead() {
        assertEquals(FileState.COMPLETE, new ExtentContent(IMAGE, 700, List.of(Extent.plain(0, 4096, 0))).state());
        assertEquals(FileState.LOST, new ExtentContent(IMAGE, 512, List.of(Extent.plain(0, 512, 5 * 512))).state());
        assertEquals(FileState.LOST, new ExtentContent(IMAGE, 512, List.of()).state());
        assertEquals(FileState.UNKNOWN, new ExtentContent(IMAGE, -1, List.of()).state());
        assertEquals(FileState.COMPLETE, new ExtentContent(IMAGE, 0, List.of()).state());
    }
}
