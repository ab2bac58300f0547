package sectorglass.workbench.recovery.copies;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.ReadMap;
import sectorglass.image.SectorImage;
import sectorglass.recovery.Passes;
import sectorglass.recovery.places.Counterparts;
import sectorglass.recovery.places.PlaceComparison;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.Words;

/** The open image and further ones of the same disk. Closes what it opened. */
final class Copies {
    private final List<OpenImage> opened = new ArrayList<>();
    private final List<Path> paths = new ArrayList<>();

    /** Number of further copies. */
    synchronized int size() {
        return opened.size();
    }

    /** A further copy. */
    synchronized OpenImage get(int index) {
        return opened.get(index);
    }

    /** Paths of the further copies. */
    synchronized List<Path> paths() {
        return List.copyOf(paths);
    }

    /**
     * Opens a further copy. A read map that lies beside it under its name, with the ending {@code .csv} or {@code .read-map.csv}, is
     * taken.
     */
    OpenImage add(Path path, SectorImage first) throws ImageException {
        OpenImage image = Images.open(path, OpenOptions.DEFAULT.withReadMap(map(path)).withLocale(Locale.getDefault()));
        if (image.sectorSize() != first.sectorSize()) {
            int size = image.sectorSize();
            image.close();
            throw new ImageException(Words.of("copies.sizes", path, size, first.sectorSize()));
        }
        synchronized (this) {
            opened.add(image);
            paths.add(path);
        }
        return image;
    }

    /** The read map beside an image, or null. */
    static Path map(Path image) {
        return ReadMap.beside(image).orElse(null);
    }

    /** Compares. */
    Passes compare(SectorImage first, Progress progress) {
        List<SectorImage> all = new ArrayList<>();
        all.add(first);
        synchronized (this) {
            all.addAll(opened);
        }
        return Passes.of(all, RuleBook.ofProviders(Locale.getDefault()), progress);
    }

    /** Compares the places of one disk that should agree. */
    List<PlaceComparison> places(Disk disk, Findings known, Progress progress) {
        Findings findings = known != null ? known
                : Survey.ofProviders().verify(disk, Level.QUICK, RuleBook.ofProviders(Locale.getDefault()), progress);
        return Counterparts.pairs(disk).stream()
                .map(pair -> PlaceComparison.of(disk.image(), pair, findings, Bench.catalogue(), progress)).toList();
    }

    /** Closes and forgets the further copies. */
    synchronized void clear() {
        opened.forEach(OpenImage::close);
        opened.clear();
        paths.clear();
    }
}
