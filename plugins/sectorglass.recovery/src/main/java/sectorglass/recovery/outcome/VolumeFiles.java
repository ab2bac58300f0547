package sectorglass.recovery.outcome;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Disk;
import sectorglass.disk.Files;
import sectorglass.disk.Partition;
import sectorglass.disk.Volume;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/**
 * A volume whose files can be listed.
 *
 * @param number of the partition, or 1 where the image is one volume
 * @param volume the volume
 * @param files its files
 * @param disk the disk, or null where the volume stands alone
 */
public record VolumeFiles(int number, Volume volume, Files files, Disk disk) {

    /** A volume that stands alone. */
    public VolumeFiles(int number, Volume volume, Files files) {
        this(number, volume, files, null);
    }

    /** Runs of sectors of the volume as runs of the image, in the same order: others only where a set puts the volume together. */
    public List<SectorRange> onImage(Iterable<SectorRange> sectors) {
        List<SectorRange> all = new ArrayList<>();
        for (SectorRange run : sectors) {
            (disk == null ? SectorRanges.of(run) : disk.onImage(volume, SectorRanges.of(run))).forEach(all::add);
        }
        return all;
    }

    /** The volumes of a disk that have files, in order of their numbers. */
    public static List<VolumeFiles> of(Disk disk) {
        List<VolumeFiles> all = new ArrayList<>();
        if (disk.volume() != null) {
            add(all, 1, disk.volume(), disk);
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null) {
                add(all, partition.number(), partition.volume(), disk);
            }
        }
        return all;
    }

    private static void add(List<VolumeFiles> all, int number, Volume volume, Disk disk) {
        volume.capability(Files.class).ifPresent(files -> all.add(new VolumeFiles(number, volume, files, disk)));
    }
}
