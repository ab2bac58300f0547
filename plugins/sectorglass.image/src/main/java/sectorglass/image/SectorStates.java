package sectorglass.image;

import java.util.Arrays;

/** The read states of consecutive sectors, as a read returned them. Immutable. */
public final class SectorStates {
    private static final ReadState[] VALUES = ReadState.values();

    private final int sectorSize;
    private final long first;
    private final int count;
    /** One ordinal per sector, or null where all were read. */
    private final byte[] states;

    private SectorStates(int sectorSize, long first, int count, byte[] states) {
        this.sectorSize = sectorSize;
        this.first = first;
        this.count = count;
        this.states = states;
    }

    /** All sectors that hold a byte of the range were read. */
    public static SectorStates allRead(int sectorSize, long firstByte, int length) {
        SectorRange run = new ByteRange(firstByte, length).sectors(sectorSize);
        return new SectorStates(sectorSize, run.first(), (int) run.count(), null);
    }

    /**
     * States given one by one.
     *
     * @param first LBA of {@code states[0]}
     * @param states one per sector, not null
     */
    public static SectorStates of(int sectorSize, long first, ReadState... states) {
        byte[] ordinals = new byte[states.length];
        boolean clean = true;
        for (int i = 0; i < states.length; i++) {
            ordinals[i] = (byte) states[i].ordinal();
            clean &= states[i] == ReadState.READ;
        }
        return new SectorStates(sectorSize, first, states.length, clean ? null : ordinals);
    }

    /** States by ordinal; the array is not copied. */
    static SectorStates ofOrdinals(int sectorSize, long first, byte[] ordinals) {
        return new SectorStates(sectorSize, first, ordinals.length, compact(ordinals));
    }

    /** Bytes per sector. */
    public int sectorSize() {
        return sectorSize;
    }

    /** LBA of the first sector told of. */
    public long first() {
        return first;
    }

    /** Number of sectors told of. */
    public int count() {
        return count;
    }

    /** Whether all were read: the usual case, answered without a loop. */
    public boolean allRead() {
        return states == null;
    }

    /** State of a sector; one that is not told of is {@link ReadState#UNREAD}. */
    public ReadState at(long lba) {
        if (lba < first || lba >= first + count) {
            return ReadState.UNREAD;
        }
        return states == null ? ReadState.READ : VALUES[states[(int) (lba - first)]];
    }

    /** Whether every sector that holds a byte of the range was read. */
    public boolean isRead(long firstByte, long length) {
        if (length <= 0) {
            return true;
        }
        long from = firstByte / sectorSize;
        long to = (firstByte + length - 1) / sectorSize;
        if (from < first || to >= first + count) {
            return false;
        }
        if (states == null) {
            return true;
        }
        for (long lba = from; lba <= to; lba++) {
            if (states[(int) (lba - first)] != 0) {
                return false;
            }
        }
        return true;
    }

    /** The sectors that hold a byte of the range and were not read. */
    public SectorRanges missing(long firstByte, long length) {
        if (isRead(firstByte, length)) {
            return SectorRanges.EMPTY;
        }
        SectorRanges.Builder builder = new SectorRanges.Builder();
        long to = (firstByte + length - 1) / sectorSize;
        for (long lba = firstByte / sectorSize; lba <= to; lba++) {
            if (at(lba) != ReadState.READ) {
                builder.add(lba, 1);
            }
        }
        return builder.build();
    }

    /** The same with the given sectors set to a state; sectors not told of are left out. */
    public SectorStates with(SectorRanges changed, ReadState state) {
        byte[] copy = states == null ? new byte[count] : states.clone();
        boolean any = false;
        for (SectorRange run : changed.intersect(new SectorRange(first, count))) {
            Arrays.fill(copy, (int) (run.first() - first), (int) (run.end() - first), (byte) state.ordinal());
            any = true;
        }
        return any ? new SectorStates(sectorSize, first, count, compact(copy)) : this;
    }

    private static byte[] compact(byte[] states) {
        for (byte state : states) {
            if (state != 0) {
                return states;
            }
        }
        return null;
    }
}
