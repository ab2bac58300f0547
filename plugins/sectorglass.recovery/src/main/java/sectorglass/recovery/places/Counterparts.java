package sectorglass.recovery.places;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import sectorglass.disk.Disk;
import sectorglass.disk.Disk.FoundMap;
import sectorglass.disk.Partition;
import sectorglass.disk.Structure;
import sectorglass.disk.Twins;
import sectorglass.disk.Volume;

/** Finds structures that should agree with another one: copies of headers, boot sectors, FATs, file tables. */
public final class Counterparts {

    private Counterparts() {
    }

    /**
     * The other copies of a structure, by address.
     *
     * @param of a structure of the disk
     */
    public static List<Structure> of(Disk disk, Structure of) {
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

    /** All pairs of places of a disk that should agree: the first copy with each further one; maps first, then volumes by number. */
    public static List<PlacePair> pairs(Disk disk) {
        List<Structure> ofMaps = new ArrayList<>();
        disk.maps().stream().filter(map -> !map.map().leftover()).forEach(map -> ofMaps.addAll(map.map().structures()));
        List<PlacePair> all = new ArrayList<>();
        pairs(null, ofMaps, List.of(), all);
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null && partition.placed()) {
                volume(partition.number(), partition.volume(), all);
            }
        }
        if (disk.volume() != null) {
            volume(1, disk.volume(), all);
        }
        return List.copyOf(all);
    }

    private static void volume(int number, Volume volume, List<PlacePair> all) {
        List<Twins.Pair> twins = volume.capability(Twins.class).map(Twins::twins).orElse(List.of());
        pairs(number, volume.structures(), twins, all);
        twins.forEach(twin -> all.add(new PlacePair(number, twin.name(), twin.one(), twin.other(), null, null)));
    }

    private static void pairs(Integer volume, List<Structure> structures, List<Twins.Pair> twins, List<PlacePair> all) {
        Map<String, Structure> firsts = new LinkedHashMap<>();
        for (Structure structure : structures) {
            if (twins.stream().anyMatch(twin -> twin.one().overlaps(structure.range()) || twin.other().overlaps(structure.range()))) {
                continue; // a piece of what is compared as a whole
            }
            Structure first = firsts.putIfAbsent(structure.format() + " " + plain(structure.name()), structure);
            if (first != null && first.range().start() != structure.range().start()) {
                all.add(new PlacePair(volume, first.name() + " \u2013 " + structure.name(), first.range(), structure.range(), first, structure));
            }
        }
    }

    /** The name without the words that tell copies apart. */
    static String plain(String name) {
        return name.toLowerCase(Locale.ROOT).replaceAll("\\b(primary|backup|copy|mirror of)\\b", "").replaceAll("\\bfat [1-9]\\b", "fat")
                .replaceAll("superblock of group \\d+", "superblock").replaceAll(", \\$[a-z]+$", "").replaceAll("[,\\s]+", " ").strip();
    }
}
