package sectorglass.disk;

import java.util.List;
import java.util.Optional;

import sectorglass.image.SectorImage;

/**
 * A disk as the survey found it.
 *
 * @param image its sectors
 * @param maps all maps, backups and leftovers included, by LBA
 * @param partitions the listed ones
 * @param volume the volume that fills the image where there is no map, or null
 */
public record Disk(SectorImage image, List<FoundMap> maps, List<Partition> partitions, Volume volume) {

    /**
     * A map and who found it.
     *
     * @param map the map
     * @param provider judges it
     */
    public record FoundMap(PartitionMap map, MapProvider provider) { }

    /** A volume by its number: a partition's number, or 1 where the image is one volume. */
    public Optional<Volume> volume(int number) {
        if (volume != null) {
            return number == 1 ? Optional.of(volume) : Optional.empty();
        }
        return partitions.stream().filter(p -> p.number() == number && p.volume() != null).map(Partition::volume).findFirst();
    }
}
