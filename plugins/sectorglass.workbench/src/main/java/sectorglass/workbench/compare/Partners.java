package sectorglass.workbench.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Disk;
import sectorglass.disk.Disk.FoundMap;
import sectorglass.disk.Partition;
import sectorglass.disk.Structure;

/** Finds structures that should agree with another one: copies of headers, boot sectors, file tables. */
final class Partners {

    private Partners() {
    }

    /**
     * The other copies of a structure, by address.
     *
     * @param of a structure of the disk
     */
    static List<Structure> of(Disk disk, Structure of) {
        List<Structure> found = new ArrayList<>();
        for (FoundMap map : disk.maps()) {
            add(map.map().structures(), of, found);
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null && partition.range().contains(of.range().start() / disk.image().sectorSize())) {
                add(partition.volume().structures(), of, found);
            }
        }
        if (disk.volume() != null) {
            add(disk.volume().structures(), of, found);
        }
        return found;
    }

    private static void add(List<Structure> structures, Structure of, List<Structure> into) {
        for (Structure other : structures) {
            if (other.format().equals(of.format()) && other.range().start() != of.range().start() && plain(other.name()).equals(plain(of.name()))) {
                into.add(other);
            }
        }
    }

    /** The name without the words that tell copies apart. */
    static String plain(String name) {
        return name.toLowerCase(Locale.ROOT).replaceAll("\\b(primary|backup|copy|mirror of)\\b", "").replaceAll("\\bfat [1-9]\\b", "fat")
                .replaceAll("superblock of group \\d+", "superblock").replaceAll("[,\\s]+", " ").strip();
    }
}
