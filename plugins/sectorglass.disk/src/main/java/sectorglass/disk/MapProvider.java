package sectorglass.disk;

import java.util.List;

import sectorglass.image.SectorImage;
import sectorglass.verify.Checks;

/** Knows kinds of partition maps; a provider. */
public interface MapProvider {

    /**
     * Finds the maps of a disk, nested ones included, with leftovers and backups told apart. Reads little: headers and arrays.
     *
     * @param image the whole disk
     * @return by LBA, container before content; empty where the disk has none of this provider's maps
     */
    List<PartitionMap> locate(SectorImage image);

    /**
     * Judges one map; reports every rule that applies to it.
     *
     * @param map one that {@link #locate} of the same provider returned
     * @param disk what else is known of the disk
     */
    void check(PartitionMap map, Disk disk, Checks out);

    /**
     * Rules that concern the disk as a whole rather than one map: a GPT without its protective MBR, a header of another sector size.
     */
    default void checkDisk(Disk disk, Checks out) {
        // most providers have none
    }

    /** Structures of this map that know their own place. */
    default List<Witness> witnesses(PartitionMap map, SectorImage image) {
        return List.of();
    }
}
