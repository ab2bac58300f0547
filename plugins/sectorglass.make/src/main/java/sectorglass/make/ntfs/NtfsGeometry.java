package sectorglass.make.ntfs;

import sectorglass.make.write.VolumeTarget;

/**
 * Sizes of an NTFS volume (field meanings as Linux kernel fs/ntfs3/ntfs.h): the last sector of the partition holds the backup boot
 * sector and belongs to no cluster.
 */
final class NtfsGeometry {
    static final int INDEX_BLOCK = 4096;
    static final int BOOT_BYTES = 8192;
    /** First record for files of the user; 0 to 15 are the system's, 16 to 23 stay free. */
    static final int FIRST_USER_RECORD = 24;

    private final int sectorSize;
    private final int clusterBytes;
    private final int recordBytes;
    private final long totalSectors;
    private final long clusters;

    NtfsGeometry(VolumeTarget target) {
        sectorSize = target.sectorSize();
        clusterBytes = target.volume().clusterBytes();
        recordBytes = Math.max(1024, sectorSize);
        totalSectors = target.sectors() - 1;
        clusters = totalSectors / target.sectorsPerCluster();
        if (clusterBytes > 2 << 20 || target.medium().bytes() < 1 << 20) {
            throw new IllegalArgumentException("no NTFS: clusterBytes=" + clusterBytes + " bytes=" + target.medium().bytes());
        }
    }

    int sectorSize() {
        return sectorSize;
    }

    int clusterBytes() {
        return clusterBytes;
    }

    int recordBytes() {
        return recordBytes;
    }

    long totalSectors() {
        return totalSectors;
    }

    long clusters() {
        return clusters;
    }

    /** Byte of the backup boot sector. */
    long backupByte() {
        return totalSectors * sectorSize;
    }

    long clustersOf(long bytes) {
        return (bytes + clusterBytes - 1) / clusterBytes;
    }

    /** Bytes of whole clusters. */
    long allocated(long bytes) {
        return clustersOf(bytes) * clusterBytes;
    }

    /** Records that the mirror repeats. */
    int mirrored() {
        return Math.max(4, clusterBytes / recordBytes);
    }

    /** By how much the VCN of index blocks rises from one to the next. */
    int vcnPerBlock() {
        return clusterBytes <= INDEX_BLOCK ? INDEX_BLOCK / clusterBytes : INDEX_BLOCK / 512;
    }

    /** Size of the journal: a 64th of the volume, 256 KiB to 4 MiB, whole clusters. */
    long journalBytes() {
        return allocated(Math.max(256 << 10, Math.min(4 << 20, totalSectors * sectorSize / 64)) / 4096 * 4096);
    }

    /** Sectors per cluster as the boot sector stores them: a count, or 256 less the logarithm. */
    int clusterByte() {
        int sectors = clusterBytes / sectorSize;
        return sectors <= 128 ? sectors : 256 - Integer.numberOfTrailingZeros(sectors);
    }

    /** A size as the boot sector stores it: in clusters, or the negated logarithm where it is less than one. */
    int sizeByte(int bytes) {
        return bytes >= clusterBytes ? bytes / clusterBytes : 256 - Integer.numberOfTrailingZeros(bytes);
    }
}
