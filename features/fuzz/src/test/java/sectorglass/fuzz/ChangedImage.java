package sectorglass.fuzz;

import java.util.ArrayList;
import java.util.List;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** A small image whose bytes are changed and whose sectors are taken away at chosen places as a fuzzer says. */
public final class ChangedImage implements SectorImage {
    private static final int SECTOR = 512;
    private static final int MOST_EDITS = 24;
    private static final int[] EXTREMES = {0, 1, -1, Integer.MAX_VALUE, Integer.MIN_VALUE, 0xFFFF, 0x10000, 8, 12};

    private final byte[] sound;
    private final byte[] bytes;
    private final int[][] places;
    private final List<int[]> changed = new ArrayList<>();
    private SectorRanges unread = SectorRanges.EMPTY;

    /**
     * A sound image.
     *
     * @param places first byte and number of bytes of what is worth changing
     */
    public ChangedImage(byte[] sound, int[]... places) {
        this.sound = sound;
        this.bytes = sound.clone();
        this.places = places;
    }

    /** The image with the next changes instead of the last ones. */
    public ChangedImage changed(FuzzedDataProvider data) {
        for (int[] range : changed) {
            System.arraycopy(sound, range[0], bytes, range[0], range[1]);
        }
        changed.clear();
        unread = SectorRanges.EMPTY;
        int holes = data.consumeInt(0, 3);
        for (int i = 0; i < holes; i++) {
            unread = unread.union(SectorRanges.of(place(data) / SECTOR, 1));
        }
        for (int i = 0; i < MOST_EDITS && data.remainingBytes() > 3; i++) {
            int at = place(data);
            byte[] value = data.consumeBoolean() ? word(data.pickValue(EXTREMES)) : data.consumeBytes(data.consumeInt(1, 16));
            int length = Math.min(value.length, bytes.length - at);
            System.arraycopy(value, 0, bytes, at, length);
            changed.add(new int[] {at, length});
        }
        return this;
    }

    private int place(FuzzedDataProvider data) {
        int[] place = places[data.consumeInt(0, places.length - 1)];
        return place[0] + data.consumeInt(0, place[1] - 1);
    }

    private static byte[] word(int value) {
        return new byte[] {(byte) value, (byte) (value >> 8), (byte) (value >> 16), (byte) (value >> 24)};
    }

    @Override
    public String name() {
        return "memory";
    }

    @Override
    public int sectorSize() {
        return SECTOR;
    }

    @Override
    public long bytes() {
        return bytes.length;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        long first = firstByte / SECTOR;
        int count = length == 0 ? 0 : (int) ((firstByte + length - 1) / SECTOR - first + 1);
        ReadState[] states = new ReadState[count];
        java.util.Arrays.fill(into, offset, offset + length, (byte) 0);
        for (int i = 0; i < count; i++) {
            states[i] = state(first + i);
            long from = Math.max(firstByte, (first + i) * SECTOR);
            long to = Math.min(firstByte + length, (first + i + 1) * SECTOR);
            if (states[i] == ReadState.READ) {
                System.arraycopy(bytes, (int) from, into, (int) (offset + from - firstByte), (int) (to - from));
            }
        }
        return SectorStates.of(SECTOR, first, states);
    }

    @Override
    public ReadState state(long lba) {
        return lba < 0 || lba >= sectors() || unread.contains(lba) ? ReadState.UNREAD : ReadState.READ;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges inside = SectorRanges.of(all()).intersect(within).minus(unread);
        return switch (state) {
            case READ -> inside;
            case UNREAD -> SectorRanges.of(within).minus(inside);
            default -> SectorRanges.EMPTY;
        };
    }
}
