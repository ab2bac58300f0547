package sectorglass.disk;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.disk.way.WayBuilder;
import sectorglass.disk.way.WayStep;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Texts;
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

    /** Corrections of maps that what is left of the disk determines, or that a person may agree to. Reads little. */
    default List<Repair> propose(Evidence evidence) {
        return List.of();
    }

    /**
     * Checksums that depend on bytes of this provider's maps which a person changed.
     *
     * @param changed image bytes that were changed
     * @param image the disk with the change over it
     */
    default List<Repair.Change> dependents(ByteRange changed, SectorImage image, Locale locale) {
        return List.of();
    }

    /** This provider's maps for another sector size, all partitions staying in place; empty where it found none. */
    default Optional<Translation> translate(Disk disk, int sectorSize, Locale locale) {
        return Optional.empty();
    }

    /**
     * How a machine finds the sectors of an entry, from the start of the disk on.
     *
     * @param map one that {@link #locate} of the same provider returned
     * @param entry one of its entries
     * @return at least one step; see {@link sectorglass.disk.way.FileWay}
     */
    default List<WayStep> way(PartitionMap map, MapEntry entry, SectorImage image, Locale locale) {
        return WayBuilder.run(new Texts(WayBuilder.class, locale), way -> {
            way.step("entry", entry.where(), null);
            way.next(way.sum("first", entry.range().first() + " × " + image.sectorSize(), Math.multiplyExact(entry.range().first(), image.sectorSize())));
        });
    }

    /**
     * Puts a map into a copy of the disk's structures, names replaced and checksums made to hold or not as before.
     *
     * @param map one that {@link #locate} of the same provider returned
     * @return whether it was put; a provider that cannot tell names from numbers puts nothing
     */
    default boolean copy(PartitionMap map, CopyTarget to, Disguise disguise) {
        return false;
    }
}
