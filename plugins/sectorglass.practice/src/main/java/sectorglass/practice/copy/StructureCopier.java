package sectorglass.practice.copy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Partition;
import sectorglass.disk.Survey;
import sectorglass.disk.Volume;
import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.disk.copy.StructureCopy;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Texts;
import sectorglass.make.SparseFile;
import sectorglass.verify.Finding;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/**
 * Copies the structures of an image into a sparse image of the same size, with a read map that calls everything else unread. The original is only read.
 * Maps and volumes that cannot be told apart from the person in them stay out: see {@link StructureCopy} and {@link sectorglass.disk.MapProvider#copy}.
 */
public final class StructureCopier {
    private final SectorImage source;
    private final boolean numbers;
    private final RuleBook book;
    private final Texts texts;

    /**
     * @param source the original
     * @param numbers whether serial numbers and identities are replaced, too
     * @param book language of findings and of what is said
     */
    public StructureCopier(SectorImage source, boolean numbers, RuleBook book) {
        this.source = source;
        this.numbers = numbers;
        this.book = book;
        texts = new Texts(StructureCopier.class, book.locale());
    }

    /**
     * Copies.
     *
     * @param seed of all that is invented; whoever knows it can tell some of the old letters, so it is to be forgotten
     * @param image the file to write; must not exist
     * @param readMap the read map to write; must not exist
     * @throws FileAlreadyExistsException if one of the files exists
     */
    public CopyResult copy(long seed, Path image, Path readMap, Progress progress) throws IOException {
        for (Path file : List.of(image, readMap)) {
            if (Files.exists(file)) {
                throw new FileAlreadyExistsException(file.toString());
            }
        }
        Disk disk = Survey.of(source, progress);
        List<Integer> volumes = new ArrayList<>();
        List<String> left = new ArrayList<>();
        SectorRanges sectors;
        try (SparseFile medium = SparseFile.create(image, source.bytes())) {
            CopyTarget to = new CopyTarget(source, medium::write);
            Disguise disguise = new Disguise(seed, numbers, false);
            for (Disk.FoundMap map : disk.maps()) {
                if (!map.provider().copy(map.map(), to, disguise)) {
                    left.add(texts.of("left.map", map.map().kind(), Long.toString(map.map().lba())));
                }
            }
            volumes(disk, (number, volume) -> {
                StructureCopy own = volume.capability(StructureCopy.class).orElse(null);
                if (own == null) {
                    left.add(texts.of("left.volume", number, volume.info().kind()));
                    return;
                }
                Disguise names = new Disguise(seed + number, numbers, false);
                own.learn(names, progress);
                own.copy(to, names, progress);
                volumes.add(number);
            });
            sectors = to.sectors();
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        Files.writeString(readMap, csv(sectors, source.sectors()));
        return compare(disk, image, readMap, sectors, volumes, left, progress);
    }

    private interface Use {
        void volume(int number, Volume volume);
    }

    private static void volumes(Disk disk, Use use) {
        if (disk.volume() != null) {
            use.volume(1, disk.volume());
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null && partition.placed()) {
                use.volume(partition.number(), partition.volume());
            }
        }
    }

    private static String csv(SectorRanges read, long sectors) {
        StringBuilder csv = new StringBuilder("first_lba,sectors,state\n");
        long next = 0;
        for (SectorRange run : read) {
            line(csv, next, run.first() - next, ReadState.UNREAD);
            line(csv, run.first(), run.count(), ReadState.READ);
            next = run.end();
        }
        line(csv, next, sectors - next, ReadState.UNREAD);
        return csv.toString();
    }

    private static void line(StringBuilder csv, long first, long count, ReadState state) {
        if (count > 0) {
            csv.append(first).append(',').append(count).append(',').append(state.word().toLowerCase(Locale.ROOT)).append('\n');
        }
    }

    private CopyResult compare(Disk disk, Path image, Path readMap, SectorRanges sectors, List<Integer> volumes, List<String> left, Progress progress)
            throws IOException {
        Map<String, Finding> before = failed(disk, progress);
        Map<String, Finding> after;
        OpenOptions options = OpenOptions.DEFAULT.withSectorSize(source.sectorSize()).withReadMap(readMap);
        try (OpenImage copy = Images.open(image, options)) {
            after = failed(Survey.of(copy, progress), progress);
        } catch (ImageException e) {
            throw new IOException(e.getMessage(), e);
        }
        List<Finding> same = before.entrySet().stream().filter(e -> after.containsKey(e.getKey())).map(Map.Entry::getValue).toList();
        List<Finding> gone = before.entrySet().stream().filter(e -> !after.containsKey(e.getKey())).map(Map.Entry::getValue).toList();
        List<Finding> added = after.entrySet().stream().filter(e -> !before.containsKey(e.getKey())).map(Map.Entry::getValue).toList();
        return new CopyResult(sectors, List.copyOf(volumes), List.copyOf(left), same, gone, added);
    }

    /** Failed checks of a full verification, by rule and place. */
    private Map<String, Finding> failed(Disk disk, Progress progress) {
        Map<String, Finding> all = new LinkedHashMap<>();
        Survey.ofProviders().verify(disk, Level.FULL, book, progress).all().stream().filter(f -> f.verdict() == Verdict.FAILED)
                .forEach(f -> all.put(f.check() + " " + f.where(), f));
        return all;
    }
}
