package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** Windows cut, joined and patched, against one record per byte. */
class WindowPropertyTest {
    private static final int SIZE = 512;
    private static final int SECTORS = 40;
    private static final Provenance HAND = new Provenance(Provenance.Kind.HAND, "test");

    /** An image in memory with a state per sector; unread bytes hold filler. */
    private record Memory(byte[] content, ReadState[] told) implements SectorImage {

        static Memory random(Random random) {
            byte[] content = new byte[SECTORS * SIZE];
            random.nextBytes(content);
            ReadState[] told = new ReadState[SECTORS];
            for (int i = 0; i < SECTORS; i++) {
                told[i] = random.nextInt(3) > 0 ? ReadState.READ : ReadState.values()[1 + random.nextInt(3)];
            }
            return new Memory(content, told);
        }

        @Override
        public String name() {
            return "memory";
        }

        @Override
        public int sectorSize() {
            return SIZE;
        }

        @Override
        public long bytes() {
            return content.length;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            System.arraycopy(content, (int) firstByte, into, offset, length);
            SectorRange run = new ByteRange(firstByte, length).sectors(SIZE);
            ReadState[] states = new ReadState[(int) run.count()];
            for (int i = 0; i < states.length; i++) {
                states[i] = told[(int) run.first() + i];
            }
            return SectorStates.of(SIZE, run.first(), states);
        }

        @Override
        public ReadState state(long lba) {
            return lba < SECTORS ? told[(int) lba] : ReadState.UNREAD;
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
    }

    private static List<Patch> patches(Random random) {
        List<Patch> patches = new ArrayList<>();
        for (int i = random.nextInt(5); i > 0; i--) {
            byte[] bytes = new byte[1 + random.nextInt(3 * SIZE)];
            random.nextBytes(bytes);
            patches.add(new Patch(random.nextInt(SECTORS * SIZE - bytes.length), bytes, HAND));
        }
        return patches;
    }

    /** What the image is under patches: content and the state of each sector. */
    private static Memory patched(Memory memory, List<Patch> patches) {
        byte[] content = memory.content.clone();
        ReadState[] told = memory.told.clone();
        java.util.BitSet covered = new java.util.BitSet();
        for (Patch patch : patches) {
            System.arraycopy(patch.bytes(), 0, content, (int) patch.start(), patch.bytes().length);
            covered.set((int) patch.start(), (int) patch.range().end());
        }
        for (int lba = 0; lba < SECTORS; lba++) {
            if (covered.nextClearBit(lba * SIZE) >= (lba + 1) * SIZE) {
                told[lba] = ReadState.READ;
            }
        }
        return new Memory(content, told);
    }

    private static void same(Memory model, long[] addresses, Window window) {
        assertEquals(addresses.length, window.length());
        for (int i = 0; i < addresses.length; i++) {
            int at = (int) addresses[i];
            assertEquals(addresses[i], window.address(i));
            assertEquals(model.told[at / SIZE], window.state(i), "state at " + at);
            if (model.told[at / SIZE] == ReadState.READ) {
                assertEquals(model.content[at] & 0xFF, window.u8(i), "byte " + at);
            } else {
                int offset = i;
                UnreadException thrown = assertThrows(UnreadException.class, () -> window.u8(offset));
                assertEquals(SectorRanges.of(at / SIZE, 1), thrown.missing());
            }
        }
        if (addresses.length > 0) {
            SectorRanges expected = SectorRanges.EMPTY;
            for (long address : addresses) {
                if (model.told[(int) address / SIZE] != ReadState.READ) {
                    expected = expected.union(SectorRanges.of(address / SIZE, 1));
                }
            }
            assertEquals(expected, window.missing(0, addresses.length));
        }
    }

    @Property(tries = 150)
    void joinedAndCutAndPatchedWindowsKeepBytesAddressesAndStates(@ForAll long seed, @ForAll @IntRange(min = 1, max = 4) int pieces) {
        Random random = new Random(seed);
        Memory memory = Memory.random(random);
        List<Window> parts = new ArrayList<>();
        List<Long> all = new ArrayList<>();
        for (int i = 0; i < pieces; i++) {
            int length = 1 + random.nextInt(2 * SIZE);
            int start = random.nextInt(SECTORS * SIZE - length);
            parts.add(memory.window(start, length));
            for (int k = 0; k < length; k++) {
                all.add((long) start + k);
            }
        }
        Window joined = Window.joined(parts);
        int from = random.nextInt(all.size());
        int count = random.nextInt(all.size() - from) + 1;
        long[] addresses = all.subList(from, from + count).stream().mapToLong(Long::longValue).toArray();
        same(memory, addresses, joined.sub(from, count));
        List<Patch> patches = patches(random);
        Memory model = patched(memory, patches);
        same(model, addresses, joined.sub(from, count).with(patches));
        same(model, addresses, joined.with(patches).sub(from, count));
        int half = count / 2;
        if (half > 0) {
            same(model, java.util.Arrays.copyOfRange(addresses, half, count),
                    joined.with(patches).sub(from, count).sub(half, count - half));
        }
    }

    @Property(tries = 150)
    void anOverlayIsTheImageUnderItsPatches(@ForAll long seed) {
        Random random = new Random(seed);
        Memory memory = Memory.random(random);
        List<Patch> patches = patches(random);
        Overlay overlay = Overlay.over(memory, "test").with(patches);
        Memory model = patched(memory, patches);
        int length = 1 + random.nextInt(4 * SIZE);
        int start = random.nextInt(SECTORS * SIZE - length);
        long[] addresses = new long[length];
        for (int i = 0; i < length; i++) {
            addresses[i] = start + i;
        }
        same(model, addresses, overlay.window(start, length));
        byte[] bytes = new byte[length];
        SectorStates states = overlay.read(start, bytes, 0, length);
        same(model, addresses, new Window(bytes, start, states));
        for (int lba = 0; lba < SECTORS; lba++) {
            assertEquals(model.told[lba], overlay.state(lba));
        }
        for (ReadState state : ReadState.values()) {
            assertEquals(model.inState(state, new SectorRange(3, 30)), overlay.inState(state, new SectorRange(3, 30)));
        }
    }

    @Property(tries = 50)
    void patchesThatTouchCoverASectorTogether(@ForAll @IntRange(min = 1, max = SIZE - 1) int cut, @ForAll boolean gap) {
        Memory memory = Memory.random(new Random(cut));
        memory.told[3] = ReadState.FAILED;
        List<Patch> patches = List.of(new Patch(3 * SIZE + cut, new byte[SIZE - cut], HAND),
                new Patch(3 * SIZE - 1, new byte[gap ? cut : cut + 1], HAND));
        Overlay overlay = Overlay.over(memory, "test").with(patches);
        assertEquals(gap ? ReadState.FAILED : ReadState.READ, overlay.state(3));
        assertEquals(!gap, overlay.window(3 * SIZE + cut - 1, 1).isRead(0, 1));
        assertEquals(!gap, overlay.window(3 * SIZE, SIZE).isRead(0, SIZE));
        assertEquals(!gap, memory.window(3 * SIZE, SIZE).with(patches).isRead(0, SIZE));
    }
}
