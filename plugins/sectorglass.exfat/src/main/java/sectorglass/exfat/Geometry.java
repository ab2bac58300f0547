package sectorglass.exfat;

/**
 * Where everything lies in an exFAT volume. Sector numbers count the volume's own sectors from its start. Source: Microsoft exFAT
 * specification, section 2 and 3.1.
 *
 * @param sectorBytes 512 to 4096
 * @param clusterBytes up to 32 MiB
 * @param fatOffset sector of the first FAT
 * @param fatLength sectors of one FAT
 * @param fats 1 or 2
 * @param activeFat 0 or 1
 * @param heapOffset sector of cluster 2
 * @param clusters number of clusters, as claimed
 * @param rootCluster first cluster of the root directory
 * @param volumeLength sectors
 */
record Geometry(int sectorBytes, int clusterBytes, long fatOffset, long fatLength, int fats, int activeFat, long heapOffset,
        long clusters, long rootCluster, long volumeLength) {

    /** The geometry of a boot sector, or null where its fields locate nothing. */
    static Geometry of(BootSector boot) {
        int shift = boot.sectorShift();
        int clusterShift = boot.clusterShift();
        if (!boot.legalSector() || clusterShift > 25 - shift || boot.fats() < 1 || boot.fats() > 2) {
            return null;
        }
        long length = boot.volumeLength();
        if (length <= 0 || length > Long.MAX_VALUE >> shift || boot.fatOffset() == 0 || boot.fatLength() == 0
                || boot.heapOffset() < boot.fatOffset() || boot.clusterCount() == 0 || boot.clusterCount() > BootSector.MOST_CLUSTERS) {
            return null;
        }
        int active = boot.fats() == 2 ? boot.flags() & 1 : 0;
        return new Geometry(1 << shift, 1 << shift + clusterShift, boot.fatOffset(), boot.fatLength(), boot.fats(), active,
                boot.heapOffset(), boot.clusterCount(), boot.rootCluster(), length);
    }

    /** Highest cluster number. */
    long lastCluster() {
        return clusters + 1;
    }

    boolean exists(long cluster) {
        return cluster >= 2 && cluster <= lastCluster();
    }

    /** Byte from the start of the volume where a cluster begins. */
    long clusterByte(long cluster) {
        return heapOffset * sectorBytes + (cluster - 2) * clusterBytes;
    }

    /** Cluster that holds the byte counted from the start of the volume, or -1. */
    long clusterAt(long volumeByte) {
        long from = volumeByte - heapOffset * sectorBytes;
        long cluster = from < 0 ? -1 : from / clusterBytes + 2;
        return exists(cluster) ? cluster : -1;
    }

    /** Byte from the start of the volume where the active FAT begins. */
    long fatByte() {
        return (fatOffset + activeFat * fatLength) * sectorBytes;
    }

    /** Entries that the FAT has room for, no more than clusters need. */
    long entriesPresent() {
        return Math.min(clusters + 2, fatLength * sectorBytes / 4);
    }

    /** Clusters that hold so many bytes. */
    long clustersOf(long bytes) {
        return bytes / clusterBytes + (bytes % clusterBytes == 0 ? 0 : 1);
    }

    long bytes() {
        return volumeLength * sectorBytes;
    }
}
