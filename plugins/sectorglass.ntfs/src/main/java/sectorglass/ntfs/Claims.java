package sectorglass.ntfs;

import java.util.Arrays;

/**
 * Which clusters belong to which stream: one row per run, sorted by cluster. 19 bytes per run. A run is cut to the volume; one longer than
 * 2^31 clusters takes several rows.
 */
final class Claims {
    private static final int MOST = 1 << 28;

    private long[] lcns = new long[1024];
    private int[] counts = new int[1024];
    private int[] records = new int[1024];
    /** Offset of the attribute in its record, divided by 8; the record is the one that holds the run. */
    private short[] attributes = new short[1024];
    private byte[] deleted = new byte[1024];
    private int rows;
    private int[] order;
    private boolean full;

    /** Adds a run; {@code attribute} is the offset of its attribute in the record. */
    void add(long lcn, long count, int record, int attribute, boolean ofDeleted) {
        long at = lcn;
        for (long left = count; left > 0;) {
            if (rows == MOST) {
                full = true;
                return;
            }
            if (rows == lcns.length) {
                grow();
            }
            int n = (int) Math.min(left, Integer.MAX_VALUE);
            lcns[rows] = at;
            counts[rows] = n;
            records[rows] = record;
            attributes[rows] = (short) (attribute >> 3);
            deleted[rows++] = (byte) (ofDeleted ? 1 : 0);
            at += n;
            left -= n;
        }
    }

    private void grow() {
        int larger = rows * 3 / 2;
        lcns = Arrays.copyOf(lcns, larger);
        counts = Arrays.copyOf(counts, larger);
        records = Arrays.copyOf(records, larger);
        attributes = Arrays.copyOf(attributes, larger);
        deleted = Arrays.copyOf(deleted, larger);
    }

    /** Whether there were too many runs to keep. */
    boolean full() {
        return full;
    }

    int rows() {
        return rows;
    }

    /** Sorts the rows by cluster: by 16 bits at a time, from the lowest. */
    void sort() {
        int[] from = new int[rows];
        Arrays.setAll(from, i -> i);
        int[] to = new int[rows];
        long all = 0;
        for (int i = 0; i < rows; i++) {
            all |= lcns[i];
        }
        for (int shift = 0; shift < 64 && all >>> shift != 0; shift += 16) {
            int[] starts = new int[(1 << 16) + 1];
            for (int row : from) {
                starts[(int) (lcns[row] >>> shift & 0xFFFF) + 1]++;
            }
            for (int i = 0; i < 1 << 16; i++) {
                starts[i + 1] += starts[i];
            }
            for (int row : from) {
                to[starts[(int) (lcns[row] >>> shift & 0xFFFF)]++] = row;
            }
            int[] swap = from;
            from = to;
            to = swap;
        }
        order = from;
    }

    /** Row at a place of the order. */
    int row(int place) {
        return order[place];
    }

    long lcn(int row) {
        return lcns[row];
    }

    long count(int row) {
        return counts[row];
    }

    int record(int row) {
        return records[row];
    }

    int attribute(int row) {
        return (attributes[row] & 0xFFFF) << 3;
    }

    boolean deleted(int row) {
        return deleted[row] != 0;
    }

    /** First place in the order whose run begins at or after the cluster. */
    int firstFrom(long lcn) {
        int low = 0;
        int high = rows;
        while (low < high) {
            int middle = low + high >>> 1;
            if (lcns[order[middle]] < lcn) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
