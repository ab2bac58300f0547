package sectorglass.exfat;

/** A set of clusters, kept in pages that are made when needed. */
final class ClusterSet {

    private static final int PAGE = 1 << 20;

    private final long last;
    private final long[][] pages;

    /** @param last highest cluster that is kept; others are never in the set */
    ClusterSet(long last) {
        this.last = last;
        this.pages = new long[(int) (last / PAGE) + 1][];
    }

    long last() {
        return last;
    }

    boolean get(long cluster) {
        if (cluster < 0 || cluster > last) {
            return false;
        }
        long[] page = pages[(int) (cluster / PAGE)];
        int at = (int) (cluster % PAGE);
        return page != null && (page[at >> 6] >>> (at & 63) & 1) != 0;
    }

    /** @return whether it was in the set before */
    boolean add(long cluster) {
        if (cluster < 0 || cluster > last) {
            return false;
        }
        long[] page = pages[(int) (cluster / PAGE)];
        if (page == null) {
            page = new long[PAGE / 64];
            pages[(int) (cluster / PAGE)] = page;
        }
        int at = (int) (cluster % PAGE);
        long bit = 1L << (at & 63);
        boolean was = (page[at >> 6] & bit) != 0;
        page[at >> 6] |= bit;
        return was;
    }

    /** The eight clusters from 2 + 8 × index on as the bitmap has them. */
    int eight(long index) {
        long first = index * 8 + 2;
        long[] page = first + 7 <= last ? pages[(int) (first / PAGE)] : null;
        int at = (int) (first % PAGE);
        if (page != null && (at & 63) <= 56) {
            return (int) (page[at >> 6] >>> (at & 63)) & 0xFF;
        }
        if (page == null && first + 7 <= last && first / PAGE == (first + 7) / PAGE) {
            return 0;
        }
        int bits = 0;
        for (int i = 0; i < 8; i++) {
            bits |= get(first + i) ? 1 << i : 0;
        }
        return bits;
    }
}
