package sectorglass.fat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.ClaimIndex;
import sectorglass.disk.VolumeSite;

/**
 * The folders of a volume by number, each by its first cluster: entries of the tree are found again by folder and slot. The slots of the
 * folder asked for last are kept. Safe for several threads.
 */
final class FolderList {

    /** Bits of a key that hold the slot. */
    private static final int SLOT_BITS = 17;

    private final VolumeSite site;
    private final FatTable table;
    private final List<int[]> clusters = new ArrayList<>();
    private int held = -1;
    private Directory slots;

    FolderList(VolumeSite site, FatTable table) {
        this.site = site;
        this.table = table;
    }

    /**
     * Adds a folder.
     *
     * @param cluster its first one; 0 for the fixed root directory
     * @param contiguous how many clusters from there on are assumed to be its own, for one that was deleted; 0: by the FAT
     * @return its number
     */
    synchronized int add(int cluster, int contiguous) {
        clusters.add(new int[] {cluster, contiguous});
        return clusters.size() - 1;
    }

    synchronized int size() {
        return clusters.size();
    }

    static long key(int folder, int slot) {
        return (long) folder << SLOT_BITS | slot;
    }

    static int folder(long key) {
        return (int) (key >> SLOT_BITS);
    }

    static int slot(long key) {
        return (int) (key & (1 << SLOT_BITS) - 1);
    }

    /** Whether it was deleted, so that only a guess says which clusters were its own. */
    synchronized boolean guessed(int folder) {
        return clusters.get(folder)[1] > 0;
    }

    /** Clusters of a folder. */
    synchronized Chain chain(int folder) {
        int[] place = clusters.get(folder);
        return place[1] > 0 ? Chain.contiguous(place[0], place[1])
                : Chain.follow(table, place[0], Directory.MOST_SLOTS * 32L / table.geometry().clusterBytes() + 1);
    }

    /** Where the clusters of all folders lie; the entry of a row is the number of the folder. */
    synchronized ClaimIndex places() {
        ClaimIndex index = new ClaimIndex();
        Geometry geometry = table.geometry();
        for (int folder = 0; folder < size(); folder++) {
            Chain chain = chain(folder);
            long offset = 0;
            for (int run = 0; run < chain.runs(); run++) {
                long length = (long) chain.count(run) * geometry.clusterBytes();
                index.add(site.firstByte() + geometry.clusterByte(chain.first(run)), length, folder, offset);
                offset += length;
            }
        }
        index.sort();
        return index;
    }

    /** Slots of a folder. */
    synchronized Directory directory(int folder) {
        if (folder != held) {
            Geometry geometry = table.geometry();
            slots = clusters.get(folder)[0] == 0 ? Directory.fixedRoot(site, geometry) : Directory.of(site, geometry, chain(folder));
            held = folder;
        }
        return slots;
    }
}
