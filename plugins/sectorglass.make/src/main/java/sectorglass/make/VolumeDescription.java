package sectorglass.make;

/**
 * A volume to be made.
 *
 * @param kind the file system
 * @param label volume label; empty: none
 * @param serial serial number: 32 bits for FAT and exFAT, 64 bits for NTFS; of ext4, what the UUID is drawn from
 * @param clusterBytes bytes per cluster (of ext4, per block), a power of two and a multiple of the sector size
 * @param root the root folder; its name and times are not used by FAT and exFAT
 */
public record VolumeDescription(VolumeKind kind, String label, long serial, int clusterBytes, Folder root) {

    /**
     * Checks the cluster size.
     *
     * @throws IllegalArgumentException if it is not a power of two of at least 512
     */
    public VolumeDescription {
        if (clusterBytes < 512 || Integer.bitCount(clusterBytes) != 1) {
            throw new IllegalArgumentException("clusterBytes=" + clusterBytes);
        }
    }
}
