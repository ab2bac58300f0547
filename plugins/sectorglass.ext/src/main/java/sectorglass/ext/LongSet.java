package sectorglass.ext;

import java.util.Arrays;

/** A set of numbers without objects: the hashes of the names of one directory after the other. */
final class LongSet {
    private long[] slots = new long[1 << 10];
    private int size;
    private boolean zero;

    /** Adds a number; gives whether it was new. */
    boolean add(long number) {
        if (number == 0) {
            boolean added = !zero;
            zero = true;
            return added;
        }
        if (size * 2 >= slots.length) {
            grow();
        }
        if (!put(number)) {
            return false;
        }
        size++;
        return true;
    }

    private boolean put(long number) {
        int mask = slots.length - 1;
        int at = (int) (((number * 0x9E3779B97F4A7C15L) >>> 32)) & mask;
        while (slots[at] != 0) {
            if (slots[at] == number) {
                return false;
            }
            at = at + 1 & mask;
        }
        slots[at] = number;
        return true;
    }

    private void grow() {
        long[] old = slots;
        slots = new long[old.length * 2];
        for (long number : old) {
            if (number != 0) {
                put(number);
            }
        }
    }

    /** Whether emptying it costs more than making a new one. */
    boolean large() {
        return slots.length > 1 << 12;
    }

    /** Empties it. */
    void clear() {
        if (size > 0) {
            Arrays.fill(slots, 0);
        }
        size = 0;
        zero = false;
    }
}
