package sectorglass.recovery.propose;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;

import sectorglass.disk.Disk;
import sectorglass.disk.PartitionMap;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.recovery.FoundState;
import sectorglass.recovery.FoundVolume;
import sectorglass.recovery.LostSearch;
import sectorglass.recovery.SearchResult;

/** Places of volumes from a search of the whole image, joined with the usual boundaries. */
public final class SearchSites {

    private SearchSites() {
    }

    /** Whether no map tells where volumes are, so that a search of the whole image is worth its time. */
    public static boolean wanted(Disk disk) {
        return disk.volume() == null && disk.maps().stream().map(Disk.FoundMap::map).noneMatch(SearchSites::tells);
    }

    private static boolean tells(PartitionMap map) {
        return !map.leftover() && !map.entries().isEmpty() && map.entries().stream().anyMatch(e -> e.use() != sectorglass.disk.MapEntry.Use.PROTECTIVE);
    }

    /**
     * The places.
     *
     * @param known result of an earlier search, or null
     * @param search whether the image is searched now where there is no earlier result
     */
    public static Sites of(SectorImage image, SearchResult known, boolean search, Progress progress) {
        SearchResult result = known == null && search ? LostSearch.of(image, progress) : known;
        TreeMap<Long, SectorRange> places = new TreeMap<>();
        BoundarySites.of(image, progress).places().forEach(place -> places.put(place.first(), place));
        if (result != null) {
            for (FoundVolume volume : result.volumes()) {
                boolean present = volume.state() == FoundState.PRESENT || volume.state() == FoundState.DOUBTFUL;
                volume.sectors(image.sectorSize()).filter(range -> present && range.end() <= image.sectors())
                        .ifPresent(range -> places.put(range.first(), range));
            }
        }
        List<SectorRange> all = new ArrayList<>(places.values());
        return new Sites(List.copyOf(all));
    }
}
