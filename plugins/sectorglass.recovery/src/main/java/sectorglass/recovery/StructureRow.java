package sectorglass.recovery;

/**
 * Structures of one signature that stand one after the other at a fixed distance.
 *
 * @param signature its number in the table of signatures
 * @param first image byte of the first
 * @param last image byte of the last
 * @param stride distance in bytes, 0 while there is only one
 * @param count how many bear the signature; those between that do not are not counted
 */
record StructureRow(int signature, long first, long last, long stride, long count) {
    /** A larger distance makes no row. */
    private static final long WIDEST = 65536;
    /** So many places of a row may lack the signature one after the other: damaged or unread records. */
    private static final int GAP = 64;

    static StructureRow of(int signature, long at) {
        return new StructureRow(signature, at, at, 0, 1);
    }

    /** The row with one more; null where it does not continue it. */
    StructureRow with(long at) {
        long distance = at - last;
        if (stride == 0) {
            return distance > 0 && distance <= WIDEST ? new StructureRow(signature, first, at, distance, 2) : null;
        }
        if (distance > 0 && distance % stride == 0 && distance / stride <= GAP) {
            return new StructureRow(signature, first, at, stride, count + 1);
        }
        if (count == 2 && distance > 0 && stride % distance == 0) {
            return new StructureRow(signature, first, at, distance, 3);
        }
        return null;
    }

    /** Up to so many places of the row, spread over it, the first ones and the last one always. */
    long[] samples(int most) {
        long places = stride == 0 ? 1 : (last - first) / stride + 1;
        if (places <= most) {
            long[] all = new long[(int) places];
            for (int i = 0; i < all.length; i++) {
                all[i] = first + i * stride;
            }
            return all;
        }
        int head = most / 2;
        long[] some = new long[most];
        for (int i = 0; i < most; i++) {
            long place = i < head ? i : head + (places - 1 - head) / (most - 1 - head) * (i - head);
            some[i] = first + place * stride;
        }
        some[most - 1] = last;
        return some;
    }
}
