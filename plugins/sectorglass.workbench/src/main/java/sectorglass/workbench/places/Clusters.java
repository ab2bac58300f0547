package sectorglass.workbench.places;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Disk;
import sectorglass.disk.Volume;

/**
 * The clusters of a volume: evenly spaced from a base.
 *
 * @param volume whose
 * @param base image byte where a cluster 0 would begin
 * @param size bytes of a cluster
 */
public record Clusters(Volume volume, long base, long size) {
    /** Numbers of the first cluster: FAT and exFAT begin with 2, ext with 0 or 1, others with 0. */
    private static final int FIRST_AT_MOST = 2;

    /** Finds the clusters of volumes and keeps them. */
    public static final class Finder {
        private final Disk disk;
        private final Map<Volume, Optional<Clusters>> known = new HashMap<>();

        /** The clusters of this disk's volumes. */
        public Finder(Disk disk) {
            this.disk = disk;
        }

        /** The clusters of the volume that holds an image byte. */
        public Optional<Clusters> at(long address) {
            return disk.volumeAt(address).flatMap(volume -> known.computeIfAbsent(volume, Clusters::of));
        }

        /** Number of the cluster that begins at an image byte; empty where none does. */
        public OptionalLong beginning(long address) {
            Optional<Clusters> clusters = at(address);
            if (clusters.isEmpty() || Math.floorMod(address - clusters.get().base, clusters.get().size) != 0) {
                return OptionalLong.empty();
            }
            return clusters.get().holding(address);
        }
    }

    /** The clusters of a volume, if it has any and they are evenly spaced. */
    static Optional<Clusters> of(Volume volume) {
        Long size = volume.info().clusterBytes();
        if (size == null || size <= 0) {
            return Optional.empty();
        }
        for (int number = 0; number <= FIRST_AT_MOST; number++) {
            OptionalLong address = volume.address("cluster", number);
            if (address.isPresent()) {
                OptionalLong next = volume.address("cluster", number + 1L);
                boolean even = next.isEmpty() || next.getAsLong() - address.getAsLong() == size;
                return even ? Optional.of(new Clusters(volume, address.getAsLong() - number * size, size)) : Optional.empty();
            }
        }
        return Optional.empty();
    }

    /** Number of the cluster that holds an image byte; empty where the volume has no cluster there. */
    public OptionalLong holding(long address) {
        long number = Math.floorDiv(address - base, size);
        if (number < 0) {
            return OptionalLong.empty();
        }
        OptionalLong start = volume.address("cluster", number);
        return start.isPresent() && start.getAsLong() == base + number * size ? OptionalLong.of(number) : OptionalLong.empty();
    }
}
