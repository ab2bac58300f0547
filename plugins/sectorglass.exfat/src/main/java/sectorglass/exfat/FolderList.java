package sectorglass.exfat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.ClaimIndex;
import sectorglass.disk.VolumeSite;

/**
 * The folders of a volume by number, each by its clusters: entries of the tree are found again by folder and slot. The slots of the folder
 * asked for last are kept. Safe for several threads.
 */
final class FolderList {

    /** Bits of a key that hold the slot: 256 MiB have 2^23 slots. */
    private static final int SLOT_BITS = 24;

    private record Place(long first, long clusters, long bytes) { }

    private final VolumeSite site;
    private final Fat fat;
    private final List<Place> places = new ArrayList<>();
    private int held = -1;
    private Directory slots;

    FolderList(VolumeSite site, Fat fat) {
        this.site = site;
        this.fat = fat;
    }

    /**
     * Adds a folder.
     *
     * @param clusters of its contiguous run, 0 for a chain in the FAT
     * @return its number
     */
    synchronized int add(long first, long clusters, long bytes) {
        places.add(new Place(first, clusters, bytes));
        return places.size() - 1;
    }

    synchronized int size() {
        return places.size();
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

    /** Clusters of a folder. */
    synchronized Chain chain(int folder) {
        Place place = places.get(folder);
        long most = Directory.MOST_BYTES / fat.geometry().clusterBytes() + 1;
        if (place.clusters() > 0) {
            return Chain.contiguous(fat.geometry(), place.first(), Math.min(most, place.clusters()));
        }
        return Chain.follow(fat, place.first(), Math.max(1, Math.min(most, fat.geometry().clustersOf(place.bytes()))));
    }

    /** Where the clusters of all folders lie; the entry of a row is the number of the folder. */
    synchronized ClaimIndex places() {
        ClaimIndex index = new ClaimIndex();
        Geometry geometry = fat.geometry();
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

    /** The slots of one cluster. */
    Directory alone(long cluster) {
        return Directory.of(site, fat.geometry(), Chain.contiguous(fat.geometry(), cluster, 1), fat.geometry().clusterBytes());
    }

    /** Slots of a folder. */
    synchronized Directory directory(int folder) {
        if (folder != held) {
            slots = Directory.of(site, fat.geometry(), chain(folder), places.get(folder).bytes());
            held = folder;
        }
        return slots;
    }
}
