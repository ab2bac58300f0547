package sectorglass.recovery;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;

import sectorglass.disk.Disk;
import sectorglass.disk.Finder;
import sectorglass.disk.Sighting;
import sectorglass.disk.Survey;
import sectorglass.disk.VolumeProvider;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.image.SectorImage;

/**
 * Finds structures of partition maps and volumes wherever they stand, and the volumes they tell of: one pass over what was read of the
 * image, then some reading at the places it led to. What was not read is counted and named, never taken for empty.
 */
public final class LostSearch {
    private final SectorImage image;
    private final List<Finder> finders;
    private final SignatureTable table;

    /** A search with all provided finders; kinds without one are found by their volume provider. */
    public LostSearch(SectorImage image) {
        this(image, Providers.all(Finder.class), Providers.all(VolumeProvider.class));
    }

    LostSearch(SectorImage image, List<Finder> own, List<VolumeProvider> providers) {
        this.image = image;
        List<Finder> all = new ArrayList<>(own);
        Set<String> known = new HashSet<>();
        own.forEach(f -> known.addAll(f.kinds()));
        for (VolumeProvider provider : providers) {
            if (!known.containsAll(provider.kinds())) {
                all.add(new ProviderFinder(provider, known));
            }
        }
        finders = List.copyOf(all);
        table = new SignatureTable(finders);
    }

    /** Searches the image without keeping anything. */
    public static SearchResult of(SectorImage image, Progress progress) {
        LostSearch search = new LostSearch(image);
        Disk disk = Survey.of(image, progress);
        return search.run(disk, null, state -> { }, progress);
    }

    /**
     * Searches the image, going on from where an earlier search of the job stopped, and keeps the result in the job file.
     *
     * @throws Progress.Stopped if the person stopped it; what was met so far is in the job file then
     */
    public static SearchResult of(Disk disk, JobFile job, Progress progress) {
        SearchStore store = new SearchStore(job);
        LostSearch search = new LostSearch(disk.image());
        SearchResult result = search.run(disk, store.state(), store::keep, progress);
        store.keep(result);
        return result;
    }

    private SearchResult run(Disk disk, ScanState known, Consumer<ScanState> save, Progress progress) {
        ScanState from = known != null && known.fits(signatures(), image.bytes()) ? known : ScanState.start(signatures(), image.bytes());
        ScanState scanned = new StructureScan(image, table).run(from, save, progress);
        List<Sighting> all = new ArrayList<>(scanned.single());
        List<StructureRow> rows = new ArrayList<>(scanned.rows());
        rows.addAll(scanned.open());
        for (int i = 0; i < rows.size(); i++) {
            progress.checkCancelled();
            progress.at("rows of records", i, rows.size());
            StructureRow row = rows.get(i);
            RowSighting.of(image, row, table.wanted().get(row.signature())).ifPresent(all::add);
        }
        all.sort(Comparator.comparingLong(s -> s.where().start()));
        for (Finder finder : finders) {
            List<Sighting> own = all.stream().filter(s -> finder.kinds().contains(s.kind())).toList();
            if (!own.isEmpty()) {
                all.addAll(finder.relate(image, own));
            }
        }
        all.sort(Comparator.comparingLong((Sighting s) -> s.where().start()).thenComparing(Sighting::kind));
        return new Agreement(disk, finders, all, progress).result(scanned);
    }

    /** Tells the signatures of this search from those of another version. */
    private String signatures() {
        int hash = 1;
        for (SignatureTable.Wanted wanted : table.wanted()) {
            hash = 31 * hash + wanted.signature().structure().hashCode();
            hash = 31 * hash + java.util.Arrays.hashCode(wanted.signature().bytes()) + wanted.signature().offset();
        }
        return table.wanted().size() + "-" + Integer.toHexString(hash);
    }
}
