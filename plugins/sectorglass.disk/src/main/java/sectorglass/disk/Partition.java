package sectorglass.disk;

import java.util.List;

import sectorglass.image.SectorRange;

/**
 * A listed partition.
 *
 * @param number 1, 2, 3 … in the order of design: maps by LBA, container before content, entries by slot
 * @param map index of its map in {@link Disk#maps}; -1 for a logical volume or set
 * @param entry the map's slot
 * @param roles what it is probably for, the likeliest first
 * @param volume what was recognised in it, or null
 */
public record Partition(int number, int map, MapEntry entry, List<Role> roles, Volume volume) {

    /** Its sectors; those of the image where it is {@link #placed}. */
    public SectorRange range() {
        return entry.range();
    }

    /** Whether its sectors are a run of the image; otherwise they are counted in a volume that a set puts together from several places. */
    public boolean placed() {
        return entry.use() != MapEntry.Use.ASSEMBLED;
    }
}
