package sectorglass.recovery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

class ByteSearchTest {

    /** Bytes in memory, some sectors not read. */
    record Memory(byte[] content, SectorRanges unread) implements SectorImage {
        @Override
        public String name() {
            return "memory";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public long bytes() {
            return content.length;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            System.arraycopy(content, (int) firstByte, into, offset, length);
            return SectorStates.allRead(512, firstByte, length).with(unread, ReadState.UNREAD);
        }

        @Override
        public ReadState state(long lba) {
            return unread.contains(lba) ? ReadState.UNREAD : ReadState.READ;
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            SectorRanges missing = unread.intersect(within);
            return state == ReadState.UNREAD ? missing : state == ReadState.READ ? SectorRanges.of(within).minus(missing) : SectorRanges.EMPTY;
        }
    }

    private static List<Long> naive(Memory image, Needle needle) {
        List<Long> found = new ArrayList<>();
        for (int at = 0; at + needle.length() <= image.content().length; at++) {
            if (needle.matches(image.content(), at) && image.window(at, needle.length()).isRead(0, needle.length())) {
                found.add((long) at);
            }
        }
        return found;
    }

    private static List<Long> forward(SectorImage image, Needle needle) {
        List<Long> found = new ArrayList<>();
        ByteSearch.of(image).forward(needle, found::add, Progress.NONE);
        return found;
    }

    @Property(tries = 300)
    void findsWhatALookAtEveryPlaceFinds(@ForAll long seed, @ForAll @IntRange(min = 1, max = 20) int length,
            @ForAll @IntRange(min = 1, max = 4) int letters) {
        Random random = new Random(seed);
        byte[] content = new byte[4096];
        for (int i = 0; i < content.length; i++) {
            content[i] = (byte) random.nextInt(letters);
        }
        byte[] bytes = java.util.Arrays.copyOfRange(content, 700, 700 + length);
        byte[] mask = new byte[length];
        for (int i = 0; i < length; i++) {
            mask[i] = (byte) (i == 0 || random.nextInt(4) > 0 ? 0xFF : random.nextBoolean() ? 0 : 0xF0);
        }
        Memory image = new Memory(content, SectorRanges.of(random.nextInt(8), 1));
        Needle needle = new Needle(bytes, mask);
        List<Long> expected = naive(image, needle);
        assertEquals(expected, forward(image, needle));
        List<Long> back = new ArrayList<>();
        ByteSearch.of(image).backward(needle, place -> {
            back.add(0, place);
            return true;
        }, Progress.NONE);
        assertEquals(expected, back);
    }

    @Test
    void findsPlacesAcrossPiecesAndStopsWhenAsked() {
        byte[] content = new byte[(4 << 20) + 1000];
        byte[] word = "needle!!".getBytes(StandardCharsets.US_ASCII);
        for (int at : new int[] {0, (2 << 20) - 4, (2 << 20) + 4, (4 << 20) - 1, content.length - 8}) {
            System.arraycopy(word, 0, content, at, 8);
        }
        Memory image = new Memory(content, SectorRanges.EMPTY);
        assertEquals(List.of(0L, (2L << 20) - 4, (2L << 20) + 4, (4L << 20) - 1, content.length - 8L), forward(image, Needle.of(word)));
        assertEquals(new ByteSearch.Result(2, 0, false), ByteSearch.of(image).forward(Needle.of(word), at -> at == 0, Progress.NONE));
    }

    @Test
    void aByteThatIsEverywhereDoesNotHideTheNeedle() {
        byte[] content = new byte[3 << 20];
        java.util.Arrays.fill(content, (byte) 0x5A);
        for (int at : new int[] {3, 4096, (1 << 20) - 2, content.length - 1}) {
            content[at] = 1;
        }
        Memory image = new Memory(content, SectorRanges.EMPTY);
        Needle needle = Needle.ofHex("5A 5A 5A 01");
        assertEquals(List.of(0L, 4093L, (1L << 20) - 5, content.length - 4L), forward(image, needle));
        assertEquals(List.of(), forward(image, Needle.ofHex("5A 5A 01 01")));
    }

    @Test
    void emptyRangesHoldNothing() {
        Memory image = new Memory(new byte[1024], SectorRanges.EMPTY);
        assertEquals(new ByteSearch.Result(0, 0, true), new ByteSearch(image, 512, 512).forward(Needle.ofHex("00"), at -> true, Progress.NONE));
        assertEquals(new ByteSearch.Result(0, 0, true), new ByteSearch(image, 512, 513).backward(Needle.ofHex("0000"), at -> true, Progress.NONE));
    }

    @Test
    void saysHowMuchItCouldNotLookAt() {
        Memory image = new Memory(new byte[10 * 512], SectorRanges.of(3, 4));
        assertEquals(new ByteSearch.Result(0, 4, true), ByteSearch.of(image).forward(Needle.ofHex("FF"), at -> true, Progress.NONE));
    }

    @Test
    void readsNumbersTextsAndOpenHalfBytes() {
        assertEquals(Needle.ofHex("78 56 34 12"), Needle.ofNumber(0x12345678, 4, ByteOrder.LITTLE_ENDIAN));
        assertEquals(Needle.ofHex("12345678"), Needle.ofNumber(0x12345678, 4, ByteOrder.BIG_ENDIAN));
        assertEquals(Needle.ofHex("FFFE"), Needle.ofNumber(-2, 2, ByteOrder.BIG_ENDIAN));
        assertEquals(Needle.ofHex("41 00 42 00"), Needle.ofText("AB", StandardCharsets.UTF_16LE));
        assertThrows(IllegalArgumentException.class, () -> Needle.ofNumber(256, 1, ByteOrder.BIG_ENDIAN));
        assertThrows(IllegalArgumentException.class, () -> Needle.ofText("ä", StandardCharsets.US_ASCII));
        assertThrows(IllegalArgumentException.class, () -> Needle.ofHex("5"));
        assertThrows(IllegalArgumentException.class, () -> Needle.ofHex("??"));
    }
}
