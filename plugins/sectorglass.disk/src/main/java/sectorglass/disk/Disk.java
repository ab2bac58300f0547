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

    /**
     * The innermost structure that holds an image byte: of a volume, else of a map. Where a volume and a map both explain it (the
     * boot sector of a volume without a map), the smaller one.
     */
    public Optional<Structure> structureAt(long imageByte) {
        Structure best = null;
        for (FoundMap found : maps) {
            for (Structure structure : found.map().structures()) {
                best = smaller(best, structure, imageByte);
            }
        }
        for (Partition partition : partitions) {
            if (partition.volume() != null) {
                best = smaller(best, partition.volume().structureAt(imageByte).orElse(null), imageByte);
            }
        }
        if (volume != null) {
            best = smaller(best, volume.structureAt(imageByte).orElse(null), imageByte);
        }
        return Optional.ofNullable(best);
    }

    private static Structure smaller(Structure best, Structure other, long imageByte) {
        if (other == null || !other.range().contains(imageByte)) {
            return best;
        }
        return best == null || other.range().length() < best.range().length() ? other : best;
    }

    /** The volume that holds an image byte. */
    public Optional<Volume> volumeAt(long imageByte) {
        long lba = imageByte / image.sectorSize();
        if (volume != null) {
            return Optional.of(volume);
        }
        return partitions.stream().filter(p -> p.volume() != null && p.range().contains(lba)).map(Partition::volume).findFirst();
    }

    /** A volume by its number: a partition's number, or 1 where the image is one volume. */
    public Optional<Volume> volume(int number) {
        if (volume != null) {
            return number == 1 ? Optional.of(volume) : Optional.empty();
        }
        return partitions.stream().filter(p -> p.number() == number && p.volume() != null).map(Partition::volume).findFirst();
    }
}
