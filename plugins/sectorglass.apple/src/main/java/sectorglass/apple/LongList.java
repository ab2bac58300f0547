package sectorglass.apple;

import java.util.Arrays;

/** Numbers in the order they came. */
final class LongList {
    private long[] values = new long[16];
    private int size;

    void add(long value) {
        if (size == values.length) {
            values = Arrays.copyOf(values, size + (size >> 1) + 16);
        }
        values[size++] = value;
    }

    int size() {
        return size;
    }

    void set(int index, long value) {
        values[index] = value;
    }

    long get(int index) {
        return values[index];
    }

    /** Place of a number in a list that rises, or below 0. */
    int find(long value) {
        return Arrays.binarySearch(values, 0, size, value);
    }

    /** The numbers, smallest first. */
    long[] sorted() {
        long[] all = Arrays.copyOf(values, size);
        Arrays.sort(all);
        return all;
    }
}
