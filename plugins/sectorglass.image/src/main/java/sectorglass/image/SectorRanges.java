package sectorglass.image;

import java.util.Arrays;
import java.util.Collection;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;

/**
 * A set of sectors as sorted runs that neither touch nor overlap. Immutable; two {@code long} per run, so that 20 million runs fit
 * into 320 MB. Operations take time proportional to the number of runs, look-ups to its logarithm.
 */
public final class SectorRanges implements Iterable<SectorRange> {

    /** No sector. */
    public static final SectorRanges EMPTY = new SectorRanges(new long[0], new long[0], 0);

    private final long[] firsts;
    private final long[] ends;
    private final int runs;

    private SectorRanges(long[] firsts, long[] ends, int runs) {
        this.firsts = firsts;
        this.ends = ends;
        this.runs = runs;
    }

    /** The set of one run. */
    public static SectorRanges of(SectorRange run) {
        return run.count() == 0 ? EMPTY : new SectorRanges(new long[] {run.first()}, new long[] {run.end()}, 1);
    }

    /** The set of one run. */
    public static SectorRanges of(long first, long count) {
        return of(new SectorRange(first, count));
    }

    /** The union of the runs, in any order, touching and overlapping ones joined. */
    public static SectorRanges of(Collection<SectorRange> any) {
        SectorRange[] sorted = any.toArray(SectorRange[]::new);
        Arrays.sort(sorted);
        Builder builder = new Builder();
        for (SectorRange run : sorted) {
            builder.add(run.first(), run.count());
        }
        return builder.build();
    }

    /** Number of runs. */
    public int runs() {
        return runs;
    }

    /** Run number {@code index}, counted from 0 in address order. */
    public SectorRange run(int index) {
        if (index < 0 || index >= runs) {
            throw new IndexOutOfBoundsException("run " + index + " of " + runs);
        }
        return new SectorRange(firsts[index], ends[index] - firsts[index]);
    }

    /** Whether there is no sector. */
    public boolean isEmpty() {
        return runs == 0;
    }

    /** Number of sectors. */
    public long count() {
        long sum = 0;
        for (int i = 0; i < runs; i++) {
            sum += ends[i] - firsts[i];
        }
        return sum;
    }

    /** Whether the sector is in the set. */
    public boolean contains(long lba) {
        int i = at(lba);
        return i >= 0 && lba < ends[i];
    }

    /** Whether every sector of the run is in the set. */
    public boolean containsAll(SectorRange run) {
        if (run.count() == 0) {
            return true;
        }
        int i = at(run.first());
        return i >= 0 && run.end() <= ends[i];
    }

    /** Whether some sector of the run is in the set. */
    public boolean intersects(SectorRange run) {
        if (run.count() == 0) {
            return false;
        }
        int i = at(run.last());
        return i >= 0 && ends[i] > run.first();
    }

    /** The sectors that are in both. */
    public SectorRanges intersect(SectorRange run) {
        Builder builder = new Builder();
        int i = Math.max(0, at(run.first()));
        for (; i < runs && firsts[i] < run.end(); i++) {
            long first = Math.max(firsts[i], run.first());
            long end = Math.min(ends[i], run.end());
            if (end > first) {
                builder.add(first, end - first);
            }
        }
        return builder.build();
    }

    /** The sectors that are in both. */
    public SectorRanges intersect(SectorRanges other) {
        Builder builder = new Builder();
        int i = 0;
        int k = 0;
        while (i < runs && k < other.runs) {
            long first = Math.max(firsts[i], other.firsts[k]);
            long end = Math.min(ends[i], other.ends[k]);
            if (end > first) {
                builder.add(first, end - first);
            }
            if (ends[i] < other.ends[k]) {
                i++;
            } else {
                k++;
            }
        }
        return builder.build();
    }

    /** The sectors that are in at least one. */
    public SectorRanges union(SectorRanges other) {
        Builder builder = new Builder();
        int i = 0;
        int k = 0;
        while (i < runs || k < other.runs) {
            if (k >= other.runs || i < runs && firsts[i] <= other.firsts[k]) {
                builder.add(firsts[i], ends[i] - firsts[i]);
                i++;
            } else {
                builder.add(other.firsts[k], other.ends[k] - other.firsts[k]);
                k++;
            }
        }
        return builder.build();
    }

    /** The sectors of this set that are not in the other. */
    public SectorRanges minus(SectorRanges other) {
        Builder builder = new Builder();
        int k = 0;
        for (int i = 0; i < runs; i++) {
            long first = firsts[i];
            while (k < other.runs && other.ends[k] <= first) {
                k++;
            }
            for (int j = k; j < other.runs && other.firsts[j] < ends[i]; j++) {
                if (other.firsts[j] > first) {
                    builder.add(first, other.firsts[j] - first);
                }
                first = Math.max(first, other.ends[j]);
            }
            if (first < ends[i]) {
                builder.add(first, ends[i] - first);
            }
        }
        return builder.build();
    }

    /** The runs as a list, in address order. */
    public List<SectorRange> toList() {
        SectorRange[] all = new SectorRange[runs];
        for (int i = 0; i < runs; i++) {
            all[i] = run(i);
        }
        return List.of(all);
    }

    @Override
    public Iterator<SectorRange> iterator() {
        return new Iterator<>() {
            private int next;

            @Override
            public boolean hasNext() {
                return next < runs;
            }

            @Override
            public SectorRange next() {
                if (next >= runs) {
                    throw new NoSuchElementException();
                }
                return run(next++);
            }
        };
    }

    /** Index of the last run that starts at or before the LBA, or -1. */
    private int at(long lba) {
        int found = Arrays.binarySearch(firsts, 0, runs, lba);
        return found >= 0 ? found : -found - 2;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof SectorRanges that && runs == that.runs
                && Arrays.equals(firsts, 0, runs, that.firsts, 0, runs)
                && Arrays.equals(ends, 0, runs, that.ends, 0, runs);
    }

    @Override
    public int hashCode() {
        int hash = 1;
        for (int i = 0; i < runs; i++) {
            hash = 31 * hash + Long.hashCode(firsts[i]) + 7 * Long.hashCode(ends[i]);
        }
        return hash;
    }

    @Override
    public String toString() {
        StringBuilder text = new StringBuilder("[");
        for (int i = 0; i < Math.min(runs, 8); i++) {
            text.append(i == 0 ? "" : ", ").append(firsts[i]).append("..").append(ends[i] - 1);
        }
        return text.append(runs > 8 ? ", … " + runs + " runs]" : "]").toString();
    }

    /** Collects runs in ascending order of their first sector. */
    public static final class Builder {
        private long[] firsts = new long[4];
        private long[] ends = new long[4];
        private int runs;

        /**
         * Adds a run; one that touches or overlaps the last is joined to it.
         *
         * @throws IllegalArgumentException if it starts before the last run does
         */
        public Builder add(long first, long count) {
            if (count == 0) {
                return this;
            }
            long end = new SectorRange(first, count).end();
            if (runs > 0 && first <= ends[runs - 1]) {
                if (first < firsts[runs - 1]) {
                    throw new IllegalArgumentException("first=" + first + " comes before " + firsts[runs - 1]);
                }
                ends[runs - 1] = Math.max(ends[runs - 1], end);
                return this;
            }
            if (runs == firsts.length) {
                int larger = runs + (runs >> 1) + 4;
                firsts = Arrays.copyOf(firsts, larger);
                ends = Arrays.copyOf(ends, larger);
            }
            firsts[runs] = first;
            ends[runs++] = end;
            return this;
        }

        /** The set; the builder must not be used any more. */
        public SectorRanges build() {
            return runs == 0 ? EMPTY : new SectorRanges(firsts, ends, runs);
        }
    }
}
