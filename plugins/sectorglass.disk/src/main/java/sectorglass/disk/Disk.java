package sectorglass.disk;

import java.util.List;
import java.util.Optional;

import sectorglass.image.AssembledImage;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;

/**
 * A disk as the survey found it.
 *
 * @param image its sectors
 * @param maps all maps, backups and leftovers included, by LBA
 * @param partitions the listed ones
 * @param volume the volume that fills the image where there is no map, or null
 * @param sets sets of disks that it is a member of
 * @param others further disks that were surveyed with it
 */
public record Disk(SectorImage image, List<FoundMap> maps, List<Partition> partitions, Volume volume, List<FoundSet> sets, List<SectorImage> others) {

    /** A disk that is in no set. */
    public Disk(SectorImage image, List<FoundMap> maps, List<Partition> partitions, Volume volume) {
        this(image, maps, partitions, volume, List.of(), List.of());
    }

    /**
     * A map and who found it.
     *
     * @param map the map
     * @param provider judges it
     */
    public record FoundMap(PartitionMap map, MapProvider provider) { }

    /**
     * A set of disks.
     *
     * @param member speaks for it
     * @param members all that are in hand, those of this disk first
     */
    public record FoundSet(SetMember member, List<Volume> members) { }

    /** What is missing in sets of disks, what could not be put together; in words. */
    public List<String> remarks() {
        return sets.stream().flatMap(set -> set.member().remarks(set.members()).stream()).toList();
    }

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
            if (partition.volume() != null && partition.placed()) {
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

    /** The sectors of the image that hold sectors of a volume: the same, except where a set puts the volume together from several places. */
    public SectorRanges onImage(Volume of, SectorRanges sectors) {
        boolean apart = partitions.stream().anyMatch(p -> p.volume() == of && !p.placed());
        return apart && of.site().image() instanceof AssembledImage own ? new SetPlaces(own, image).sectors(sectors) : sectors;
    }

    /** The volume that holds an image byte. */
    public Optional<Volume> volumeAt(long imageByte) {
        long lba = imageByte / image.sectorSize();
        Optional<Volume> innermost = partitions.stream().filter(p -> p.volume() != null && p.placed() && p.range().contains(lba))
                .reduce((outer, inner) -> inner.range().count() <= outer.range().count() ? inner : outer).map(Partition::volume);
        return innermost.isPresent() || volume == null ? innermost : Optional.of(volume);
    }

    /** A volume by its number: a partition's number, or 1 where the image is one volume. */
    public Optional<Volume> volume(int number) {
        if (volume != null && number == 1) {
            return Optional.of(volume);
        }
        return partitions.stream().filter(p -> p.number() == number && p.volume() != null).map(Partition::volume).findFirst();
    }
}
