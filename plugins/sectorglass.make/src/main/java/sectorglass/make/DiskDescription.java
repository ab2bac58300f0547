package sectorglass.make;

import java.util.List;
import java.util.UUID;

/**
 * A disk to be made. Together with the program version it fixes every byte.
 *
 * @param sectors number of sectors
 * @param sectorSize bytes per sector: 512, 1024, 2048 or 4096
 * @param seed from which all numbers come that the description leaves open
 * @param map the partition map
 * @param mbrSignature disk signature of an MBR; a GPT has none
 * @param diskGuid GUID of a GPT disk; null: taken from the seed
 * @param partitions in the order of their slots
 * @param volume the volume of a disk without a map; null: none
 */
public record DiskDescription(long sectors, int sectorSize, long seed, MapKind map, int mbrSignature, UUID diskGuid,
        List<PartitionDescription> partitions, VolumeDescription volume) {

    /**
     * Checks sizes.
     *
     * @throws IllegalArgumentException if the sector size is none of the four, or a partition leaves the disk
     */
    public DiskDescription {
        if (sectorSize != 512 && sectorSize != 1024 && sectorSize != 2048 && sectorSize != 4096) {
            throw new IllegalArgumentException("sectorSize=" + sectorSize);
        }
        if (sectors < 1 || sectors > Long.MAX_VALUE / sectorSize) {
            throw new IllegalArgumentException("sectors=" + sectors);
        }
        partitions = List.copyOf(partitions);
        for (PartitionDescription partition : partitions) {
            if (partition.firstLba() >= sectors || partition.sectors() > sectors - partition.firstLba()) {
                throw new IllegalArgumentException("partition " + partition.firstLba() + " + " + partition.sectors()
                        + " leaves the disk of " + sectors + " sectors");
            }
        }
        if (map == MapKind.NONE && !partitions.isEmpty()) {
            throw new IllegalArgumentException("partitions without a map");
        }
    }

    /** A disk with an MBR. */
    public static DiskDescription mbr(long sectors, int sectorSize, long seed, int signature, PartitionDescription... partitions) {
        return new DiskDescription(sectors, sectorSize, seed, MapKind.MBR, signature, null, List.of(partitions), null);
    }

    /** A disk with a GPT. */
    public static DiskDescription gpt(long sectors, int sectorSize, long seed, UUID guid, PartitionDescription... partitions) {
        return new DiskDescription(sectors, sectorSize, seed, MapKind.GPT, 0, guid, List.of(partitions), null);
    }

    /** A disk that is one volume. */
    public static DiskDescription volume(long sectors, int sectorSize, long seed, VolumeDescription volume) {
        return new DiskDescription(sectors, sectorSize, seed, MapKind.NONE, 0, null, List.of(), volume);
    }

    /** The same with another map. */
    public DiskDescription with(MapKind other) {
        return new DiskDescription(sectors, sectorSize, seed, other, mbrSignature, diskGuid, partitions, volume);
    }

    /** Size in bytes. */
    public long bytes() {
        return sectors * sectorSize;
    }
}
