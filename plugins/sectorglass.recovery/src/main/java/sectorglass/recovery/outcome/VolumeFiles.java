package sectorglass.recovery.outcome;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Disk;
import sectorglass.disk.Files;
import sectorglass.disk.Partition;
import sectorglass.disk.Volume;

/**
 * A volume whose files can be listed.
 *
 * @param number of the partition, or 1 where the image is one volume
 * @param volume the volume
 * @param files its files
 */
public record VolumeFiles(int number, Volume volume, Files files) {

    /** The volumes of a disk that have files, in order of their numbers. */
    public static List<VolumeFiles> of(Disk disk) {
        List<VolumeFiles> all = new ArrayList<>();
        if (disk.volume() != null) {
            add(all, 1, disk.volume());
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null) {
                add(all, partition.number(), partition.volume());
            }
        }
        return all;
    }

    private static void add(List<VolumeFiles> all, int number, Volume volume) {
        volume.capability(Files.class).ifPresent(files -> all.add(new VolumeFiles(number, volume, files)));
    }
}
