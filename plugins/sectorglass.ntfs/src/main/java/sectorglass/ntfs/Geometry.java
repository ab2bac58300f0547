package sectorglass.ntfs;

/**
 * The measures of a volume, as its boot sector states them and after they were found legal.
 *
 * @param firstByte image byte of the volume's first sector
 * @param sectorBytes bytes per sector of the volume: 512, 1024, 2048 or 4096
 * @param clusterBytes bytes per cluster: a power of two, at least a sector, at most 2 MiB
 * @param recordBytes bytes per file record: a power of two, 512 to 4096
 * @param indexBytes bytes per index block: a power of two, 512 to 65536
 * @param sectors sectors of the volume without the last one, which holds the copy of the boot sector
 * @param mftLcn cluster of the first file record
 * @param mirrorLcn cluster of the copy of the first file records
 * @param serial volume serial number
 */
record Geometry(long firstByte, int sectorBytes, int clusterBytes, int recordBytes, int indexBytes, long sectors, long mftLcn,
        long mirrorLcn, long serial) {

    /** Whole clusters of the volume; sectors after the last whole cluster belong to none. */
    long clusters() {
        return sectors / (clusterBytes / sectorBytes);
    }

    /** Image byte of a cluster; the number must lie in the volume. */
    long clusterByte(long lcn) {
        return firstByte + lcn * clusterBytes;
    }

    /** Whether all clusters of the run lie in the volume. */
    boolean holds(long lcn, long count) {
        return lcn >= 0 && count >= 0 && lcn <= clusters() && count <= clusters() - lcn;
    }

    /** Number of file records that the mirror holds: four, or a cluster full of them. */
    int mirrorRecords() {
        return Math.max(4, clusterBytes / recordBytes);
    }

    /** Image byte of the copy of the boot sector: the last sector of the partition. */
    long backupByte() {
        return firstByte + sectors * sectorBytes;
    }

    /** Bytes that one unit of an index block number stands for: a cluster, or 512 where a cluster is larger than an index block. */
    int indexUnitBytes() {
        return clusterBytes > indexBytes ? FixedBlock.STRIDE : clusterBytes;
    }
}
