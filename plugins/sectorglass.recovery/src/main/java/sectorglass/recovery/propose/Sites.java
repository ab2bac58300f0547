package sectorglass.recovery.propose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalLong;

import sectorglass.disk.Disk;
import sectorglass.disk.Evidence;
import sectorglass.disk.Partition;
import sectorglass.disk.Repairs;
import sectorglass.disk.Survey;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;

/**
 * Places where volumes may begin, and the volumes that are recognised there. Those inside another volume are its content: images of
 * volumes stored as files.
 *
 * @param places first sector and, where known, number of sectors; 0 where not known
 */
public record Sites(List<SectorRange> places) {

    /** The volumes that are recognised at the places, by first sector, none inside another. */
    public List<Evidence.FoundVolume> volumes(SectorImage image, Disk disk) {
        Survey survey = Survey.ofProviders();
        List<Evidence.FoundVolume> all = new ArrayList<>();
        for (SectorRange place : places) {
            if (place.first() > 0 && place.first() < image.sectors()) {
                Evidence.FoundVolume found = at(survey, image, place);
                if (found != null) {
                    all.add(found);
                }
            }
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null && all.stream().noneMatch(f -> first(f) == partition.range().first())) {
                all.add(new Evidence.FoundVolume(partition.volume(), placed(partition.volume()), "partition " + partition.number()));
            }
        }
        all.sort(Comparator.comparingLong(Sites::first).thenComparingLong(f -> -range(f).count()));
        return outermost(all);
    }

    private static Evidence.FoundVolume at(Survey survey, SectorImage image, SectorRange place) {
        long count = place.count() > 0 ? place.count() : image.sectors() - place.first();
        Volume volume = survey.recognise(new VolumeSite(image, new SectorRange(place.first(), count), null)).orElse(null);
        if (volume == null || volume.info().kind().equals("unknown")) {
            return null;
        }
        VolumeInfo info = volume.info();
        if (info.bytes() == null || info.bytes() <= 0 || info.range() == null) {
            return place.count() > 0 ? new Evidence.FoundVolume(volume, placed(volume), "scan") : null;
        }
        long sectors = info.range().count();
        if (sectors <= 0 || sectors > image.sectors() - place.first()) {
            return null;
        }
        SectorRange own = new SectorRange(place.first(), sectors);
        Volume exact = own.count() == count ? volume : survey.recognise(new VolumeSite(image, own, null)).orElse(volume);
        return new Evidence.FoundVolume(exact, placed(exact), "scan");
    }

    /** Whether the volume itself says that it begins where it was found. */
    static boolean placed(Volume volume) {
        OptionalLong stated = volume.capability(Repairs.class).map(Repairs::statedFirst).orElse(OptionalLong.empty());
        return stated.isPresent() && stated.getAsLong() > 0 && stated.getAsLong() == volume.site().range().first();
    }

    static long first(Evidence.FoundVolume found) {
        return found.volume().site().range().first();
    }

    static SectorRange range(Evidence.FoundVolume found) {
        return found.volume().site().range();
    }

    private static List<Evidence.FoundVolume> outermost(List<Evidence.FoundVolume> sorted) {
        List<Evidence.FoundVolume> kept = new ArrayList<>();
        for (Evidence.FoundVolume found : sorted) {
            if (kept.stream().noneMatch(outer -> range(outer).overlaps(range(found)))) {
                kept.add(found);
            }
        }
        return List.copyOf(kept);
    }
}
