package sectorglass.ntfs;

import java.util.Arrays;

/**
 * The runs of one stream: which clusters of the volume hold which clusters of the stream. Pieces come from one or more attributes; what
 * no piece covers is unknown. Sources: NTFS-3G runlist.c; Linux-NTFS documentation, "Data Runs".
 */
final class RunList {
    /** In place of a cluster number: these clusters of the stream stand nowhere and read as zero. */
    static final long HOLE = -1;

    /** What is wrong with the stored form. */
    enum Problem {
        NONE, UNTERMINATED, BAD_FIELD_SIZE, BAD_LENGTH, BAD_LCN, UNREAD
    }

    private long[] vcns = new long[4];
    private long[] lcns = new long[4];
    private long[] counts = new long[4];
    private int runs;
    private Problem problem = Problem.NONE;
    private int problemOffset = -1;

    int runs() {
        return runs;
    }

    /** First cluster of the stream in the run. */
    long vcn(int run) {
        return vcns[run];
    }

    /** First cluster of the volume, or {@link #HOLE}. */
    long lcn(int run) {
        return lcns[run];
    }

    /** Clusters in the run. */
    long count(int run) {
        return counts[run];
    }

    /** Cluster of the stream after the last run. */
    long end() {
        return runs == 0 ? 0 : vcns[runs - 1] + counts[runs - 1];
    }

    /**
     * Cluster of the stream after the last one that stands inside volume and image: what lies beyond cannot be read, however much of it
     * is claimed.
     */
    long readableEnd(Geometry geometry, long imageBytes) {
        long inImage = Math.min(geometry.clusters(), Math.max(0, imageBytes - geometry.firstByte()) / geometry.clusterBytes() + 1);
        long end = 0;
        for (int i = 0; i < runs; i++) {
            if (lcns[i] != HOLE && lcns[i] < inImage) {
                end = Math.max(end, vcns[i] + Math.min(counts[i], inImage - lcns[i]));
            }
        }
        return end;
    }

    Problem problem() {
        return problem;
    }

    /** Offset in the block of the run that is wrong, or -1. */
    int problemOffset() {
        return problemOffset;
    }

    void clear() {
        runs = 0;
        problem = Problem.NONE;
        problemOffset = -1;
    }

    /**
     * Decodes the runs of one attribute and adds them.
     *
     * @param block holds them
     * @param from offset of the first run
     * @param to offset after the attribute
     * @param lowestVcn cluster of the stream where they start
     * @return clusters covered
     */
    long add(FixedBlock block, int from, int to, long lowestVcn) {
        int at = from;
        long vcn = lowestVcn;
        long lcn = 0;
        while (true) {
            if (at >= to || at < 0) {
                return bad(Problem.UNTERMINATED, at, vcn - lowestVcn);
            }
            if (!block.has(at, 1)) {
                return bad(Problem.UNREAD, at, vcn - lowestVcn);
            }
            int head = block.u8(at);
            if (head == 0) {
                return vcn - lowestVcn;
            }
            int lengthBytes = head & 15;
            int lcnBytes = head >> 4;
            if (lengthBytes == 0 || lengthBytes > 8 || lcnBytes > 8 || at + 1 + lengthBytes + lcnBytes > to) {
                return bad(Problem.BAD_FIELD_SIZE, at, vcn - lowestVcn);
            }
            if (!block.has(at, 1 + lengthBytes + lcnBytes)) {
                return bad(Problem.UNREAD, at, vcn - lowestVcn);
            }
            long count = signed(block, at + 1, lengthBytes);
            if (count <= 0 || count > Long.MAX_VALUE / 2 - vcn) {
                return bad(Problem.BAD_LENGTH, at, vcn - lowestVcn);
            }
            if (lcnBytes == 0) {
                append(vcn, HOLE, count);
            } else {
                lcn += signed(block, at + 1 + lengthBytes, lcnBytes);
                if (lcn < 0 || lcn > 1L << 52) {
                    return bad(Problem.BAD_LCN, at, vcn - lowestVcn);
                }
                append(vcn, lcn, count);
            }
            vcn += count;
            at += 1 + lengthBytes + lcnBytes;
        }
    }

    private long bad(Problem what, int at, long covered) {
        if (problem == Problem.NONE) {
            problem = what;
            problemOffset = at;
        }
        return covered;
    }

    private static long signed(FixedBlock block, int at, int count) {
        long value = (byte) block.u8(at + count - 1);
        for (int i = at + count - 2; i >= at; i--) {
            value = value << 8 | block.u8(i);
        }
        return value;
    }

    /** Adds one run after or between the others; the order is restored by {@link #sort}. */
    void append(long vcn, long lcn, long count) {
        if (runs == vcns.length) {
            int larger = runs * 2;
            vcns = Arrays.copyOf(vcns, larger);
            lcns = Arrays.copyOf(lcns, larger);
            counts = Arrays.copyOf(counts, larger);
        }
        vcns[runs] = vcn;
        lcns[runs] = lcn;
        counts[runs++] = count;
    }

    /** Puts the runs in order of the stream, for pieces that came in another order. */
    void sort() {
        boolean sorted = true;
        for (int i = 1; i < runs && sorted; i++) {
            sorted = vcns[i - 1] <= vcns[i];
        }
        if (sorted) {
            return;
        }
        Integer[] order = new Integer[runs];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (a, b) -> Long.compare(vcns[a], vcns[b]));
        long[] v = new long[runs];
        long[] l = new long[runs];
        long[] c = new long[runs];
        for (int i = 0; i < runs; i++) {
            v[i] = vcns[order[i]];
            l[i] = lcns[order[i]];
            c[i] = counts[order[i]];
        }
        vcns = v;
        lcns = l;
        counts = c;
    }

    /** Index of the run that holds the cluster of the stream, or -1. */
    int runAt(long vcn) {
        int found = Arrays.binarySearch(vcns, 0, runs, vcn);
        int run = found >= 0 ? found : -found - 2;
        return run >= 0 && vcn - vcns[run] < counts[run] ? run : -1;
    }
}
