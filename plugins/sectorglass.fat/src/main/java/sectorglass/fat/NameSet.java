package sectorglass.fat;

import java.util.Arrays;

/** A set of slots by the hash of their names; one that compares them tells real repeats from equal hashes. */
final class NameSet {

    /** Compares two slots. */
    interface Same {
        boolean same(int oneSlot, int otherSlot);
    }

    private long[] hashes = new long[256];
    private int[] slots = new int[256];
    private int count;

    NameSet() {
        Arrays.fill(slots, -1);
    }

    void clear() {
        if (count > 0) {
            if (slots.length > 1 << 14) {
                hashes = new long[256];
                slots = new int[256];
            }
            Arrays.fill(slots, -1);
            count = 0;
        }
    }

    /** @return whether a slot with the same name was there; then the set stays as it is */
    boolean add(long hash, int slot, Same same) {
        if (count * 2 >= slots.length) {
            grow();
        }
        int mask = slots.length - 1;
        int at = spread(hash) & mask;
        while (slots[at] >= 0) {
            if (hashes[at] == hash && same.same(slots[at], slot)) {
                return true;
            }
            at = at + 1 & mask;
        }
        hashes[at] = hash;
        slots[at] = slot;
        count++;
        return false;
    }

    boolean isEmpty() {
        return count == 0;
    }

    /** The slot that was added with this hash, or -1. */
    int slot(long hash) {
        int mask = slots.length - 1;
        for (int at = spread(hash) & mask; slots[at] >= 0; at = at + 1 & mask) {
            if (hashes[at] == hash) {
                return slots[at];
            }
        }
        return -1;
    }

    private void grow() {
        long[] oldHashes = hashes;
        int[] oldSlots = slots;
        hashes = new long[oldSlots.length * 2];
        slots = new int[oldSlots.length * 2];
        Arrays.fill(slots, -1);
        int mask = slots.length - 1;
        for (int i = 0; i < oldSlots.length; i++) {
            if (oldSlots[i] >= 0) {
                int at = spread(oldHashes[i]) & mask;
                while (slots[at] >= 0) {
                    at = at + 1 & mask;
                }
                hashes[at] = oldHashes[i];
                slots[at] = oldSlots[i];
            }
        }
    }

    private static int spread(long hash) {
        long mixed = hash * 0x9E3779B97F4A7C15L;
        return (int) (mixed >>> 32);
    }
}
