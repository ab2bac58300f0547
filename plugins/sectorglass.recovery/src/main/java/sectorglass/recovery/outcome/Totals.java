package sectorglass.recovery.outcome;

import sectorglass.disk.FileState;

/** Files and bytes by state. Filled while files are counted, then only read. */
public final class Totals {
    private static final int STATES = FileState.values().length;

    private final long[] files = new long[STATES];
    private final long[] bytes = new long[STATES];
    private long readBytes;
    private long empty;
    private long emptyBytes;

    /**
     * Counts a file.
     *
     * @param length its bytes, counted once for a file with several names: 0 for the second; unknown lengths count as 0
     * @param read how many of them were read
     * @param emptyInside whether it was read in full and holds one repeated byte
     */
    void add(FileState state, long length, long read, boolean emptyInside) {
        files[state.ordinal()]++;
        bytes[state.ordinal()] += length;
        readBytes += read;
        if (emptyInside) {
            empty++;
            emptyBytes += length;
        }
    }

    /** Adds the counts of others. */
    void add(Totals other) {
        for (int i = 0; i < STATES; i++) {
            files[i] += other.files[i];
            bytes[i] += other.bytes[i];
        }
        readBytes += other.readBytes;
        empty += other.empty;
        emptyBytes += other.emptyBytes;
    }

    /** Sum of several. */
    public static Totals sum(Iterable<Totals> all) {
        Totals sum = new Totals();
        all.forEach(sum::add);
        return sum;
    }

    /** This without parts that it holds. */
    public Totals without(Iterable<Totals> parts) {
        Totals rest = sum(java.util.List.of(this));
        for (Totals part : parts) {
            for (int i = 0; i < STATES; i++) {
                rest.files[i] -= part.files[i];
                rest.bytes[i] -= part.bytes[i];
            }
            rest.readBytes -= part.readBytes;
            rest.empty -= part.empty;
            rest.emptyBytes -= part.emptyBytes;
        }
        return rest;
    }

    /** Files in a state. */
    public long files(FileState state) {
        return files[state.ordinal()];
    }

    /** Bytes of the files in a state, read or not. */
    public long bytes(FileState state) {
        return bytes[state.ordinal()];
    }

    /** All files. */
    public long files() {
        return java.util.Arrays.stream(files).sum();
    }

    /** Bytes of all files, read or not. */
    public long bytes() {
        return java.util.Arrays.stream(bytes).sum();
    }

    /** Bytes of all files that were read. */
    public long readBytes() {
        return readBytes;
    }

    /** Files that were read in full and hold one repeated byte; they are among the complete ones. */
    public long empty() {
        return empty;
    }

    /** Bytes of those. */
    public long emptyBytes() {
        return emptyBytes;
    }
}
