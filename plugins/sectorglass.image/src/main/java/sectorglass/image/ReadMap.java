package sectorglass.image;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * Read states of a disk by LBA, and optionally the head that serves each sector. Kept as runs: 8 bytes for a start and 1 for a state, 2
 * more where heads are given, in blocks so that it grows without being copied. Immutable, safe for use by several threads.
 *
 * <p>A sector that the map does not mention counts as {@link ReadState#UNREAD}.
 */
public final class ReadMap {
    /** Code of sectors that are not mentioned; the other codes are ordinals of {@link ReadState}. */
    static final byte SILENT = 4;
    /** No head known. */
    public static final int NO_HEAD = -1;
    /** Largest head number. */
    public static final int MOST_HEADS = Short.MAX_VALUE;
    /** Says nothing about any sector. */
    public static final ReadMap EMPTY = new Builder().build();

    private static final ReadState[] STATES = ReadState.values();
    /** Runs per block: blocks of 256 KiB stay below the size that collectors treat as huge, which would double what they take. */
    private static final int SHIFT = 15;
    /** Runs per bucket of the index, about. */
    private static final int PER_BUCKET = 16;
    private static final int BLOCK = 1 << SHIFT;

    /** Starts by block; the last run is silent and never ends. */
    private final long[][] starts;
    private final byte[][] codes;
    /** Null where no head is given. */
    private final short[][] heads;
    private final int runs;
    /** For each stretch of {@code 1 << bucketShift} sectors before the end, the run that holds its first sector. */
    private final int[] index;
    private final int bucketShift;

    private ReadMap(long[][] starts, byte[][] codes, short[][] heads, int runs) {
        this.starts = starts;
        this.codes = codes;
        this.heads = heads;
        this.runs = runs;
        int shift = 0;
        while (end() >>> shift > runs / PER_BUCKET) {
            shift++;
        }
        this.bucketShift = shift;
        this.index = new int[(int) (end() >>> shift) + 2];
        int run = 0;
        for (int i = 0; i < index.length; i++) {
            while (run < runs - 1 && start(run + 1) >>> shift < i) {
                run++;
            }
            index[i] = run < runs - 1 && start(run + 1) == (long) i << shift ? run + 1 : run;
        }
    }

    /**
     * A stretch of sectors with one state.
     *
     * @param sectors which
     * @param state theirs
     * @param head the head that serves them, or {@link #NO_HEAD}
     */
    public record Run(SectorRange sectors, ReadState state, int head) { }

    /** Takes the runs of a map in turn. */
    @FunctionalInterface
    public interface RunVisitor {
        /** One mentioned run: LBA of the first sector, LBA after the last. */
        void run(long first, long end, ReadState state, int head);
    }

    /** Reads a map from a CSV file; messages in English. */
    public static ReadMap load(Path file) throws ImageException {
        return ReadMapFile.read(file, Locale.ENGLISH).map();
    }

    /**
     * The read map that lies beside an image under its name ({@code disk.img.read-map.csv}, {@code disk.img.csv} or {@code disk.csv}) and
     * begins as one does. It is never used unasked: whoever opens the image may have a newer one.
     */
    public static Optional<Path> beside(Path image) {
        return MapBeside.of(image);
    }

    /** Writes the mentioned runs as a CSV file. */
    public void save(Path file) throws IOException {
        ReadMapFile.write(this, file);
    }

    /** A map of given sets; sectors in several of them have the state that comes first here: failed, skipped, unread, read. */
    public static ReadMap of(SectorRanges read, SectorRanges failed, SectorRanges skipped, SectorRanges unread) {
        ReadMap map = of(read, ReadState.READ);
        map = of(unread, ReadState.UNREAD).over(map);
        map = of(skipped, ReadState.SKIPPED).over(map);
        return of(failed, ReadState.FAILED).over(map);
    }

    /** A map that gives a set of sectors one state and mentions no others. */
    public static ReadMap of(SectorRanges sectors, ReadState state) {
        Builder builder = new Builder();
        for (int i = 0; i < sectors.runs(); i++) {
            SectorRange run = sectors.run(i);
            builder.add(run.first(), run.count(), state, NO_HEAD);
        }
        return builder.build();
    }

    /** State of a sector. */
    public ReadState state(long lba) {
        byte code = code(at(lba));
        return code == SILENT ? ReadState.UNREAD : STATES[code];
    }

    /** Whether the map says something about the sector. */
    public boolean mentions(long lba) {
        return code(at(lba)) != SILENT;
    }

    /** The head that serves the sector, or {@link #NO_HEAD}. */
    public int head(long lba) {
        return headOf(at(lba));
    }

    /** Number of runs, gaps between mentioned sectors included. */
    public int runs() {
        return runs - 1;
    }

    /** LBA after the last mentioned sector; 0 where none is. */
    public long end() {
        return start(runs - 1);
    }

    /** Number of mentioned sectors in the state. */
    public long count(ReadState state) {
        long sum = 0;
        for (int i = 0; i < runs - 1; i++) {
            if (code(i) == state.ordinal()) {
                sum += start(i + 1) - start(i);
            }
        }
        return sum;
    }

    /** Number of sectors before {@link #end()} that are not mentioned. */
    public long silent() {
        long sum = 0;
        for (int i = 0; i < runs - 1; i++) {
            if (code(i) == SILENT) {
                sum += start(i + 1) - start(i);
            }
        }
        return sum;
    }

    /** The first LBA that is not mentioned. */
    public long firstSilent() {
        for (int i = 0; i < runs; i++) {
            if (code(i) == SILENT) {
                return start(i);
            }
        }
        return end();
    }

    /** The sectors of the run in a state; those not mentioned are unread. */
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges.Builder builder = new SectorRanges.Builder();
        if (within.count() > 0) {
            for (int i = at(within.first()); i < runs && start(i) < within.end(); i++) {
                byte code = code(i);
                if (code == state.ordinal() || code == SILENT && state == ReadState.UNREAD) {
                    long first = Math.max(start(i), within.first());
                    builder.add(first, Math.min(next(i), within.end()) - first);
                }
            }
        }
        return builder.build();
    }

    /** The sectors that the map mentions. */
    public SectorRanges mentioned() {
        SectorRanges.Builder builder = new SectorRanges.Builder();
        visit((first, end, state, head) -> builder.add(first, end - first));
        return builder.build();
    }

    /** Visits all mentioned runs in order. */
    public void visit(RunVisitor visitor) {
        for (int i = 0; i < runs - 1; i++) {
            if (code(i) != SILENT) {
                visitor.run(start(i), start(i + 1), STATES[code(i)], headOf(i));
            }
        }
    }

    /** Sets ordinals of states for sectors from {@code first} on; whether all of them are read. */
    boolean fill(long first, byte[] into) {
        boolean clean = true;
        long end = first + into.length;
        for (int i = at(first); i < runs && start(i) < end; i++) {
            byte code = code(i) == SILENT ? (byte) ReadState.UNREAD.ordinal() : code(i);
            if (code != 0) {
                clean = false;
                Arrays.fill(into, (int) (Math.max(start(i), first) - first), (int) (Math.min(next(i), end) - first), code);
            }
        }
        return clean;
    }

    /** This map where it mentions a sector, the other one elsewhere. */
    public ReadMap over(ReadMap below) {
        return combine(below, (mine, other) -> mine == SILENT ? other : mine);
    }

    /** Chooses the code of sectors that two maps give a code each. */
    @FunctionalInterface
    interface Choice {
        byte of(byte mine, byte other);
    }

    /** Both maps put together; a head comes from this map where it has one. */
    ReadMap combine(ReadMap other, Choice choice) {
        Builder builder = new Builder();
        int i = 0;
        int k = 0;
        long at = 0;
        while (i < runs - 1 || k < other.runs - 1) {
            long end = Math.min(next(i), other.next(k));
            byte code = choice.of(code(i), other.code(k));
            if (code != SILENT) {
                int head = headOf(i) == NO_HEAD ? other.headOf(k) : headOf(i);
                builder.append(at, end, code, head);
            }
            at = end;
            if (next(i) == end) {
                i++;
            }
            if (other.next(k) == end) {
                k++;
            }
        }
        return builder.build();
    }

    long start(int run) {
        return starts[run >> SHIFT][run & BLOCK - 1];
    }

    /** LBA after a run. */
    long next(int run) {
        return run == runs - 1 ? Long.MAX_VALUE : start(run + 1);
    }

    byte code(int run) {
        return codes[run >> SHIFT][run & BLOCK - 1];
    }

    private int headOf(int run) {
        return heads == null ? NO_HEAD : heads[run >> SHIFT][run & BLOCK - 1];
    }

    /** Index of the run that holds the LBA. */
    int at(long lba) {
        if (lba < 0) {
            throw new IllegalArgumentException("lba=" + lba);
        }
        if (lba >= end()) {
            return runs - 1;
        }
        int bucket = (int) (lba >>> bucketShift);
        int low = index[bucket];
        int high = index[bucket + 1];
        while (low < high) {
            int middle = (low + high + 1) >>> 1;
            if (start(middle) <= lba) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }

    /** Collects runs in ascending order. */
    public static final class Builder {
        private long[][] starts = new long[4][];
        private byte[][] codes = new byte[4][];
        private short[][] heads;
        private int runs;
        private long end;

        /** Begins with nothing. */
        public Builder() {
            put(0, SILENT, NO_HEAD);
        }

        /** LBA after the last sector added. */
        public long end() {
            return end;
        }

        /**
         * Adds a run behind all others.
         *
         * @param head 0 to {@link #MOST_HEADS}, or {@link #NO_HEAD}
         * @throws IllegalArgumentException if it starts before the end of the last one
         */
        public Builder add(long first, long count, ReadState state, int head) {
            if (first < end || head < NO_HEAD || head > MOST_HEADS) {
                throw new IllegalArgumentException("first=" + first + " end=" + end + " head=" + head);
            }
            if (count != 0) {
                append(first, new SectorRange(first, count).end(), (byte) state.ordinal(), head);
            }
            return this;
        }

        void append(long first, long last, byte code, int head) {
            if (first == end && runs > 1) {
                runs--;
                int before = runs - 1;
                if (codes[before >> SHIFT][before & BLOCK - 1] != code || headOf(before) != head) {
                    put(first, code, head);
                }
            } else {
                if (first == 0) {
                    runs = 0;
                }
                put(first, code, head);
            }
            end = last;
            put(last, SILENT, NO_HEAD);
        }

        private int headOf(int run) {
            return heads == null ? NO_HEAD : heads[run >> SHIFT][run & BLOCK - 1];
        }

        private void put(long start, byte code, int head) {
            int block = runs >> SHIFT;
            if (block == starts.length) {
                starts = Arrays.copyOf(starts, block * 2);
                codes = Arrays.copyOf(codes, block * 2);
                heads = heads == null ? null : Arrays.copyOf(heads, block * 2);
            }
            if (starts[block] == null) {
                starts[block] = new long[block == 0 && runs == 0 ? 16 : BLOCK];
                codes[block] = new byte[starts[block].length];
            }
            int index = runs & BLOCK - 1;
            if (index == starts[block].length) {
                starts[block] = Arrays.copyOf(starts[block], Math.min(BLOCK, index * 4));
                codes[block] = Arrays.copyOf(codes[block], starts[block].length);
            }
            starts[block][index] = start;
            codes[block][index] = code;
            putHead(block, index, head);
            runs++;
        }

        private void putHead(int block, int index, int head) {
            if (heads == null && head == NO_HEAD) {
                return;
            }
            if (heads == null) {
                heads = new short[starts.length][];
            }
            for (int i = block; i >= 0 && heads[i] == null; i--) {
                heads[i] = new short[BLOCK];
                Arrays.fill(heads[i], (short) NO_HEAD);
            }
            heads[block][index] = (short) head;
        }

        /** The map; the builder must not be used any more. */
        public ReadMap build() {
            return new ReadMap(starts, codes, heads, runs);
        }
    }
}
