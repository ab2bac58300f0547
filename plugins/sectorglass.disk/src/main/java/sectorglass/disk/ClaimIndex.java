package sectorglass.disk;

import java.util.Arrays;

/** Who claims which image bytes: rows of start, length, entry and offset in the file, sorted by start. */
public final class ClaimIndex {

    private long[] start = new long[1024];
    private long[] length = new long[1024];
    private int[] entry = new int[1024];
    private long[] offset = new long[1024];
    private int rows;
    private long longest;

    /**
     * Adds a row.
     *
     * @param first image byte
     * @param bytes length
     * @param owner id of the entry
     * @param inFile byte of the file that stands there
     */
    public void add(long first, long bytes, int owner, long inFile) {
        if (rows == start.length) {
            int more = rows * 2;
            start = Arrays.copyOf(start, more);
            length = Arrays.copyOf(length, more);
            entry = Arrays.copyOf(entry, more);
            offset = Arrays.copyOf(offset, more);
        }
        start[rows] = first;
        length[rows] = bytes;
        entry[rows] = owner;
        offset[rows++] = inFile;
        longest = Math.max(longest, bytes);
    }

    /** Sorts the rows: to be called once, after the last was added. */
    public void sort() {
        Integer[] order = new Integer[rows];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (a, b) -> Long.compare(start[a], start[b]));
        long[] s = new long[rows];
        long[] l = new long[rows];
        int[] e = new int[rows];
        long[] o = new long[rows];
        for (int i = 0; i < rows; i++) {
            s[i] = start[order[i]];
            l[i] = length[order[i]];
            e[i] = entry[order[i]];
            o[i] = offset[order[i]];
        }
        start = s;
        length = l;
        entry = e;
        offset = o;
    }

    /** Number of rows. */
    public int rows() {
        return rows;
    }

    /** First row that may reach the byte. */
    public int firstNear(long imageByte) {
        int low = 0;
        int high = rows;
        while (low < high) {
            int middle = low + high >>> 1;
            if (start[middle] <= imageByte - longest) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Image byte where a row starts. */
    public long start(int row) {
        return start[row];
    }

    /** Bytes of a row. */
    public long length(int row) {
        return length[row];
    }

    /** Entry of a row. */
    public int entry(int row) {
        return entry[row];
    }

    /** Byte of the file that stands at the start of a row. */
    public long offset(int row) {
        return offset[row];
    }
}
