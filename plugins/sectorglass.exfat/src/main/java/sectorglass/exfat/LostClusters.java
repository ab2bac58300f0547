package sectorglass.exfat;

import java.util.function.LongPredicate;

/**
 * Clusters that the allocation bitmap calls used and nothing that was found owns. Source: Microsoft exFAT specification, section 7.1.5; that
 * a run of them is one file is an assumption where the FAT says nothing.
 */
final class LostClusters {

    private final Fat fat;
    private final Bitmap bitmap;
    private final ClusterSet owned;
    private final ClusterSet linked;

    /**
     * @param bitmap the bitmap; null where it cannot be located, and then nothing is lost
     * @param owned clusters that have an owner; grows while owners are found
     */
    LostClusters(Fat fat, Bitmap bitmap, ClusterSet owned) {
        this.fat = fat;
        this.bitmap = bitmap;
        this.owned = owned;
        this.linked = new ClusterSet(owned.last());
    }

    /** Notes which lost clusters another one links to: they begin no chain. */
    void findLinks() {
        for (long cluster = next(2); cluster > 0; cluster = next(cluster + 1)) {
            long entry = fat.entry(cluster);
            if (entry != cluster && is(entry)) {
                linked.add(entry);
            }
        }
    }

    /** Whether the cluster is lost. */
    boolean is(long cluster) {
        return bitmap != null && cluster >= 2 && cluster <= owned.last() && bitmap.bit(cluster) == 1 && !owned.get(cluster)
                && fat.entry(cluster) != Fat.BAD;
    }

    /** First lost cluster from this one on, or -1. */
    long next(long from) {
        if (bitmap == null) {
            return -1;
        }
        for (long cluster = from; cluster <= owned.last(); cluster++) {
            if ((cluster - 2 & 7) == 0 && bitmap.eight((cluster - 2) / 8) <= 0) {
                cluster += 7;
            } else if (is(cluster)) {
                return cluster;
            }
        }
        return -1;
    }

    /** Whether another lost cluster links to it. */
    boolean isLinked(long cluster) {
        return linked.get(cluster);
    }

    /**
     * The clusters that begin here, by the FAT where it links lost ones, else a run of neighbours; all of them are owned from now on.
     *
     * @param goesOn whether a neighbour may belong to the run
     */
    Chain take(long first, LongPredicate goesOn) {
        long entry = fat.entry(first);
        long count = 1;
        owned.add(first);
        if (entry != Fat.END && is(entry)) {
            for (long at = entry; at != Fat.END && is(at); at = fat.entry(at)) {
                owned.add(at);
                count++;
            }
            return Chain.follow(fat, first, count);
        }
        for (long at = first + 1; entry != Fat.END && is(at) && !linked.get(at) && fat.entry(at) != Fat.END && !is(fat.entry(at)) && goesOn.test(at); at++) {
            owned.add(at);
            count++;
        }
        return Chain.contiguous(fat.geometry(), first, count);
    }
}
