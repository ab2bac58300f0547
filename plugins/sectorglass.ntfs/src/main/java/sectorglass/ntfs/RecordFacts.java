package sectorglass.ntfs;

import java.util.Arrays;

/** What a full check keeps of every record and every name: about 11 bytes per record and 24 per name. */
final class RecordFacts {
    static final int USABLE = 1;
    static final int IN_USE = 2;
    static final int FOLDER = 4;
    static final int BASE = 8;
    /** Cannot be used although it was read. */
    static final int DAMAGED = 16;
    /** Some of it was not read. */
    static final int UNREAD = 32;
    /** Its attributes could not be walked to the end. */
    static final int BROKEN = 64;

    private byte[] states = new byte[1024];
    private char[] sequences = new char[1024];
    private long[] sizes = new long[1024];
    private int records;

    int[] nameRecord = new int[1024];
    int[] nameParent = new int[1024];
    char[] nameParentSequence = new char[1024];
    short[] nameOffset = new short[1024];
    long[] nameHash = new long[1024];
    int names;

    void record(int number, int state, int sequence, long size) {
        if (number >= states.length) {
            int larger = (int) Math.min(Integer.MAX_VALUE - 64L, number * 3L / 2 + 16);
            states = Arrays.copyOf(states, larger);
            sequences = Arrays.copyOf(sequences, larger);
            sizes = Arrays.copyOf(sizes, larger);
        }
        states[number] = (byte) state;
        sequences[number] = (char) sequence;
        sizes[number] = size;
        records = Math.max(records, number + 1);
    }

    int records() {
        return records;
    }

    int state(long number) {
        return number < 0 || number >= records ? 0 : states[(int) number];
    }

    boolean is(long number, int bits) {
        return (state(number) & bits) == bits;
    }

    int sequence(long number) {
        return sequences[(int) number];
    }

    /** Bytes of the unnamed stream; -1 where not known. */
    long size(long number) {
        return sizes[(int) number];
    }

    void size(long number, long size) {
        sizes[(int) number] = size;
    }

    void name(int record, long parent, int parentSequence, int offset, long hash) {
        if (names == nameRecord.length) {
            int larger = (int) Math.min(Integer.MAX_VALUE - 64L, names * 3L / 2);
            nameRecord = Arrays.copyOf(nameRecord, larger);
            nameParent = Arrays.copyOf(nameParent, larger);
            nameParentSequence = Arrays.copyOf(nameParentSequence, larger);
            nameOffset = Arrays.copyOf(nameOffset, larger);
            nameHash = Arrays.copyOf(nameHash, larger);
        }
        nameRecord[names] = record;
        nameParent[names] = parent > Integer.MAX_VALUE ? Integer.MAX_VALUE : (int) parent;
        nameParentSequence[names] = (char) parentSequence;
        nameOffset[names] = (short) offset;
        nameHash[names++] = hash;
    }

    /** Hash of a name in its folder and its record: 64 bits, so that two of some millions hardly ever meet. */
    static long hash(long record, long parent, FixedBlock block, int nameAt, int units) {
        long h = record * 0x9E3779B97F4A7C15L ^ Long.rotateLeft(parent * 0xC2B2AE3D27D4EB4FL, 31);
        for (int i = 0; i < units; i++) {
            h = (h ^ block.u16(nameAt + 2 * i)) * 0x100000001B3L;
            h ^= h >>> 29;
        }
        h *= 0xBF58476D1CE4E5B9L;
        return h ^ h >>> 32;
    }
}
