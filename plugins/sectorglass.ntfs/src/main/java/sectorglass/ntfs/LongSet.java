package sectorglass.ntfs;

import java.util.Arrays;

/** A set of hashes, open addressing; 0 is kept apart. */
final class LongSet {
    private long[] slots = new long[1 << 10];
    private int used;
    private boolean zero;

    void add(long value) {
        if (value == 0) {
            zero = true;
            return;
        }
        if (used > slots.length / 2 && slots.length < 1 << 29) {
            long[] old = slots;
            slots = new long[old.length * 2];
            used = 0;
            Arrays.stream(old).filter(v -> v != 0).forEach(this::put);
        }
        put(value);
    }

    private void put(long value) {
        int at = slot(value);
        if (slots[at] == 0) {
            slots[at] = value;
            used++;
        }
    }

    private int slot(long value) {
        int at = (int) (value ^ value >>> 32) & slots.length - 1;
        while (slots[at] != 0 && slots[at] != value) {
            at = at + 1 & slots.length - 1;
        }
        return at;
    }

    boolean contains(long value) {
        return value == 0 ? zero : slots[slot(value)] == value;
    }
}
