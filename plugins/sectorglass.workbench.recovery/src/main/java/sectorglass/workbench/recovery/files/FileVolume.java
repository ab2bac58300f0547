package sectorglass.workbench.recovery.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import sectorglass.disk.Disk;
import sectorglass.disk.Files;
import sectorglass.disk.Partition;
import sectorglass.disk.Volume;
import sectorglass.image.SafeText;
import sectorglass.image.SectorRange;
import sectorglass.workbench.look.Numbers;

/**
 * A volume whose files can be listed.
 *
 * @param number of the partition, or 1 where the image is one volume
 * @param range its sectors
 */
record FileVolume(int number, SectorRange range, Volume volume, Files files) {

    /** The volumes of a disk that have files, in order. */
    static List<FileVolume> of(Disk disk) {
        List<FileVolume> all = new ArrayList<>();
        if (disk.volume() != null) {
            add(all, 1, disk.image().all(), disk.volume());
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null) {
                add(all, partition.number(), partition.range(), partition.volume());
            }
        }
        return all;
    }

    private static void add(List<FileVolume> all, int number, SectorRange range, Volume volume) {
        Optional<Files> files = volume.capability(Files.class);
        files.ifPresent(f -> all.add(new FileVolume(number, range, volume, f)));
    }

    /** Index of the one that holds the sector, the smallest where several do; -1 where none does. */
    static int holding(List<FileVolume> all, long lba) {
        int best = -1;
        for (int i = 0; i < all.size(); i++) {
            if (all.get(i).range.contains(lba) && (best < 0 || all.get(i).range.count() < all.get(best).range.count())) {
                best = i;
            }
        }
        return best;
    }

    /** Index of the largest. */
    static int largest(List<FileVolume> all) {
        int best = 0;
        for (int i = 1; i < all.size(); i++) {
            best = all.get(i).range.count() > all.get(best).range.count() ? i : best;
        }
        return best;
    }

    /** "2 · ntfs · ARCHIVE · 100 GB (93.1 GiB)". */
    String words(int sectorSize) {
        String label = volume.info().label();
        return number + " \u00B7 " + volume.info().kind() + (label == null || label.isEmpty() ? "" : " \u00B7 " + SafeText.of(label)) + " \u00B7 "
                + Numbers.size(range.count() * sectorSize);
    }
}
