package sectorglass.fat;

/**
 * Where everything lies in a FAT volume. All sector numbers count the volume's own logical sectors from its start. Arithmetic
 * of the Microsoft FAT specification, "FAT Volume Structure" and "FAT Type Determination", in 64 bits.
 *
 * @param kind width of the entries
 * @param sectorBytes 512 to 4096, a power of two
 * @param clusterSectors a power of two
 * @param firstFat sector of the first FAT
 * @param fats copies
 * @param fatSectors sectors per copy
 * @param rootSectors sectors of the fixed root directory; 0 for FAT32
 * @param rootSlots slots of the fixed root directory; 0 for FAT32
 * @param rootCluster first cluster of the root directory; 0 where it is fixed
 * @param totalSectors of the volume
 * @param clusters number of data clusters
 */
record Geometry(FatKind kind, int sectorBytes, int clusterSectors, int firstFat, int fats, long fatSectors, int rootSectors,
        int rootSlots, long rootCluster, long totalSectors, long clusters) {

    /** The geometry of a boot sector, or null where its fields locate nothing. */
    static Geometry of(BootSector boot) {
        int bytes = boot.bytesPerSector();
        int perCluster = boot.sectorsPerCluster();
        if (!legalSectorBytes(bytes) || Integer.bitCount(perCluster) != 1 || boot.reserved() == 0 || boot.fats() == 0
                || boot.fatSize() == 0) {
            return null;
        }
        boolean form32 = boot.form32() && boot.rootEntries() == 0;
        int rootSectors = (boot.rootEntries() * 32 + bytes - 1) / bytes;
        long firstData = boot.reserved() + boot.fats() * boot.fatSize() + rootSectors;
        long dataSectors = boot.totalSectors() - firstData;
        if (dataSectors < perCluster) {
            return null;
        }
        long clusters = dataSectors / perCluster;
        FatKind kind = form32 ? FatKind.FAT32 : FatKind.byCount(clusters);
        if (kind == FatKind.FAT32) {
            clusters = Math.min(clusters, FatKind.MOST_CLUSTERS - 1);
        }
        return new Geometry(kind, bytes, perCluster, boot.reserved(), boot.fats(), boot.fatSize(), rootSectors, boot.rootEntries(),
                kind == FatKind.FAT32 && boot.form32() ? boot.rootCluster() & 0x0FFFFFFFL : 0, boot.totalSectors(), clusters);
    }

    static boolean legalSectorBytes(int bytes) {
        return bytes == 512 || bytes == 1024 || bytes == 2048 || bytes == 4096;
    }

    /** First sector of the fixed root directory, or of the data where there is none. */
    long rootSector() {
        return firstFat + fats * fatSectors;
    }

    /** Sector of cluster 2. */
    long firstData() {
        return rootSector() + rootSectors;
    }

    /** Highest legal cluster number. */
    long lastCluster() {
        return clusters + 1;
    }

    /** Whether a cluster of that number exists. */
    boolean exists(long cluster) {
        return cluster >= 2 && cluster <= lastCluster();
    }

    int clusterBytes() {
        return clusterSectors * sectorBytes;
    }

    /** Byte from the start of the volume where a cluster begins. */
    long clusterByte(long cluster) {
        return (firstData() + (cluster - 2) * clusterSectors) * sectorBytes;
    }

    /** Cluster that holds the byte counted from the start of the volume, or -1 outside the data region. */
    long clusterAt(long volumeByte) {
        long start = firstData() * sectorBytes;
        if (volumeByte < start) {
            return -1;
        }
        long cluster = (volumeByte - start) / clusterBytes() + 2;
        return exists(cluster) ? cluster : -1;
    }

    /** Byte from the start of the volume where a FAT copy begins; copies count from 0. */
    long fatByte(int copy) {
        return (firstFat + copy * fatSectors) * sectorBytes;
    }

    /** Bytes of one FAT copy that hold entries in use, those of clusters 0 and 1 included. */
    long tableBytes() {
        return kind.tableBytes(clusters + 2);
    }

    /** Bytes of one FAT copy. */
    long fatBytes() {
        return fatSectors * sectorBytes;
    }

    /** Entries that the FAT has room for, no more than clusters need. */
    long entriesPresent() {
        return Math.min(clusters + 2, fatBytes() * 8 / kind.bits());
    }

    /** Byte in a FAT copy where the entry begins. */
    long entryByte(long cluster) {
        return cluster * kind.bits() / 8;
    }

    /** Bytes of the volume, as it says. */
    long bytes() {
        return totalSectors * sectorBytes;
    }
}
