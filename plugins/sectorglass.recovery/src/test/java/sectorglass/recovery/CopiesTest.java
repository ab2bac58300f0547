package sectorglass.recovery;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

class CopiesTest {
    private static final int SIZE = 512;

    /** A small image whose sectors hold one value each; a negative value is a sector that was not read and holds filler. */
    record Made(String name, int... values) implements SectorImage {
        @Override
        public int sectorSize() {
            return SIZE;
        }

        @Override
        public long bytes() {
            return (long) values.length * SIZE;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            long first = firstByte / SIZE;
            int count = (int) ((firstByte + length - 1) / SIZE - first + 1);
            ReadState[] states = new ReadState[count];
            for (int i = 0; i < count; i++) {
                states[i] = state(first + i);
            }
            for (int i = 0; i < length; i++) {
                long lba = (firstByte + i) / SIZE;
                into[offset + i] = (byte) (lba < values.length ? values[(int) lba] : 0);
            }
            return SectorStates.of(SIZE, first, states);
        }

        @Override
        public ReadState state(long lba) {
            return lba >= values.length ? ReadState.UNREAD : values[(int) lba] < 0 ? ReadState.FAILED : ReadState.READ;
        }

        @Override
        public SectorRanges inState(ReadState state, sectorglass.image.SectorRange within) {
            SectorRanges.Builder found = new SectorRanges.Builder();
            for (long lba = within.first(); lba < within.end(); lba++) {
                if (state(lba) == state) {
                    found.add(lba, 1);
                }
            }
            return found.build();
        }
    }

    private static SectorRanges read(SectorImage image) {
        return image.inState(ReadState.READ, image.all());
    }

    @Test
    void tellsAgreementDifferenceAndWhoReadWhat() {
        Made a = new Made("a", 1, 2, -1, 4, 5, -1);
        Made b = new Made("b", 1, 9, 3, -1, 5, -1, 7);
        CopyComparison c = CopyComparison.of(List.of(a, b), Progress.NONE);
        assertEquals(SectorRanges.of(List.of(new sectorglass.image.SectorRange(0, 1), new sectorglass.image.SectorRange(4, 1))), c.agree());
        assertEquals(SectorRanges.of(1, 1), c.differ());
        assertEquals(SectorRanges.of(3, 1), c.onlyIn().get(0));
        assertEquals(SectorRanges.of(List.of(new sectorglass.image.SectorRange(2, 1), new sectorglass.image.SectorRange(6, 1))), c.onlyIn().get(1));
        assertEquals(SectorRanges.of(5, 1), c.nowhere());
    }

    @Test
    void aDisputedSectorIsNeverSettledSilently() {
        Made a = new Made("a", 1, 2);
        Made b = new Made("b", 1, 3);
        CopyComparison c = CopyComparison.of(List.of(a, b), Progress.NONE);
        MergePlan plan = MergePlan.of(c, List.of(read(a), read(b)), List.of(), SIZE);
        assertEquals(SectorRanges.of(1, 1), plan.disputed());
    }

    @Property(tries = 200)
    void mergingTakesEverySectorFromACopyThatReadIt(@ForAll @Size(min = 2, max = 4) List<@Size(min = 1, max = 12) List<@IntRange(min = -1, max = 2) Integer>> made) {
        List<Made> copies = new ArrayList<>();
        for (List<Integer> values : made) {
            copies.add(new Made("c" + copies.size(), values.stream().mapToInt(Integer::intValue).toArray()));
        }
        CopyComparison c = CopyComparison.of(copies, Progress.NONE);
        List<SectorRanges> readers = copies.stream().map(CopiesTest::read).toList();
        MergedImage merged = new MergedImage(copies, MergePlan.of(c, readers, List.of(), SIZE));
        BitSet differ = new BitSet();
        for (int lba = 0; lba < merged.sectors(); lba++) {
            int at = lba;
            List<Made> holders = copies.stream().filter(m -> m.state(at) == ReadState.READ).toList();
            assertEquals(holders.isEmpty() ? merged.state(lba) : ReadState.READ, merged.state(lba));
            assertEquals(holders.isEmpty(), merged.state(lba) != ReadState.READ);
            if (!holders.isEmpty()) {
                byte[] expected = new byte[SIZE];
                Arrays.fill(expected, (byte) holders.get(0).values()[lba]);
                assertArrayEquals(expected, merged.sector(lba).bytes(0, SIZE));
                differ.set(lba, holders.stream().mapToInt(m -> m.values()[at]).distinct().count() > 1);
            }
            assertEquals(differ.get(lba), c.differ().contains(lba), "LBA " + lba);
        }
        for (ReadState state : ReadState.values()) {
            for (int lba = 0; lba < merged.sectors(); lba++) {
                assertEquals(merged.state(lba) == state, merged.inState(state, merged.all()).contains(lba));
            }
        }
    }
}
