package sectorglass.exfat;

import sectorglass.image.SectorRanges;

/** The allocation bitmap: bit i stands for cluster i + 2. Source: Microsoft exFAT specification, section 7.1.5. */
final class Bitmap {

    static final int UNREAD = -1;

    private final Stretch stretch;
    private final Pages pages;
    private final long clusters;

    /** @param stretch the bytes of the bitmap, as far as it has any */
    Bitmap(Stretch stretch, long clusters) {
        this.stretch = stretch;
        this.clusters = clusters;
        this.pages = new Pages(stretch, stretch.length());
    }

    /** 1 where the cluster is not available, 0 where it is, or {@link #UNREAD}. */
    int bit(long cluster) {
        long index = cluster - 2;
        if (index < 0 || index >= clusters) {
            return UNREAD;
        }
        int bits = pages.u8(index / 8);
        return bits < 0 ? UNREAD : bits >> index % 8 & 1;
    }

    /** Bytes of the bitmap that belong to clusters and are there. */
    long bytes() {
        return Math.min((clusters + 7) / 8, stretch.length());
    }

    /** The bits of eight clusters, or -1; bits beyond the last cluster are cleared. */
    int eight(long index) {
        int bits = pages.u8(index);
        long left = clusters - index * 8;
        return bits < 0 || left >= 8 ? bits : bits & (1 << left) - 1;
    }

    Stretch stretch() {
        return stretch;
    }

    /** The sectors of the bitmap that were not read. */
    SectorRanges missing() {
        return stretch.missing(0, bytes());
    }
}
