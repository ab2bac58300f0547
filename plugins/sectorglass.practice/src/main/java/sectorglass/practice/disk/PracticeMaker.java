package sectorglass.practice.disk;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.make.DiskDescription;
import sectorglass.make.DiskMaker;
import sectorglass.make.MadeDisk;
import sectorglass.make.SparseFile;
import sectorglass.make.SplitMix64;
import sectorglass.practice.fault.FaultKind;
import sectorglass.recovery.FileHash;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/**
 * Makes practice disks. Each is verified when it is made: a disk on which one of the planted faults is not found, by its check and at its place,
 * is thrown away, and the next one is drawn from the same seed.
 */
public final class PracticeMaker {
    /** The highest level. */
    public static final int LEVELS = 5;
    private static final int ATTEMPTS = 20;
    /** How many disks are looked at for one that has room for all kinds wanted. */
    private static final int LOOKS = 2000;
    private static final int[][] COUNTS = {{1, 1}, {1, 2}, {1, 3}, {2, 4}, {0, 5}};

    private final RuleBook book;

    /** @param book gives words and explanations in its language */
    public PracticeMaker(RuleBook book) {
        this.book = book;
    }

    /**
     * Makes a disk; an older image of that name is replaced.
     *
     * @param level 1 to {@value #LEVELS}
     * @param seat number in a class set, or 0
     * @param image the file to write
     * @return the key to it
     * @throws IOException if the image cannot be written
     * @throws IllegalArgumentException if the level is none
     */
    public DiskKey make(long seed, int level, int seat, Path image) throws IOException {
        if (level < 1 || level > LEVELS) {
            throw new IllegalArgumentException("level=" + level);
        }
        int[] counts = COUNTS[level - 1];
        return drawn(seed, level, seat, image, "practice level " + level, List.of(), (drawing, numbers) -> {
            int wanted = counts[0] + numbers.below(counts[1] - counts[0] + 1);
            drawing.plant(wanted, level);
            return drawing.planted().size() == wanted;
        });
    }

    /**
     * Makes a disk with a fault of each of these kinds; an older image of that name is replaced.
     *
     * @param kinds names, as {@link #kinds} lists them
     * @throws IllegalArgumentException if there is no such kind, or they fit no disk together
     */
    public DiskKey make(long seed, List<String> kinds, Path image) throws IOException {
        List<FaultKind> wanted = new ArrayList<>();
        for (String name : kinds) {
            wanted.add(FaultKind.all().stream().filter(k -> k.name().equals(name)).findFirst()
                    .orElseThrow(() -> new IllegalArgumentException("no kind of fault is called " + name)));
        }
        return drawn(seed, LEVELS, 0, image, "practice of " + String.join(", ", kinds), wanted, (drawing, numbers) -> {
            for (FaultKind kind : wanted) {
                if (!drawing.plant(kind)) {
                    return false;
                }
            }
            return true;
        });
    }

    /** Names of all kinds of faults, with the level from which on each is planted. */
    public static Map<String, Integer> kinds() {
        Map<String, Integer> kinds = new LinkedHashMap<>();
        FaultKind.all().forEach(kind -> kinds.put(kind.name(), kind.level()));
        return kinds;
    }

    /** Plants what is wanted; false where the disk has no room for it. */
    @FunctionalInterface
    private interface Planting {
        boolean plant(FaultDrawing drawing, SplitMix64 numbers) throws IOException;
    }

    private DiskKey drawn(long seed, int level, int seat, Path image, String part, List<FaultKind> kinds, Planting planting) throws IOException {
        int made = 0;
        for (int attempt = 0; attempt < LOOKS && made < ATTEMPTS; attempt++) {
            SplitMix64 numbers = SplitMix64.of(seed, part + " attempt " + attempt);
            DiskDescription description = new DiskDrawing(numbers, level).draw();
            if (!FaultDrawing.fits(description, kinds)) {
                continue;
            }
            made++;
            MadeDisk disk;
            List<FaultDrawing.Planted> planted;
            try (SparseFile medium = SparseFile.create(image, description.bytes())) {
                disk = DiskMaker.withPlaces().make(description, medium);
                FaultDrawing drawing = new FaultDrawing(medium, disk, numbers);
                planted = planting.plant(drawing, numbers) ? drawing.planted() : null;
            }
            DiskKey key = planted == null ? null : key(code(seed, part), seed, level, seat, image, disk, planted);
            if (key != null) {
                return key;
            }
        }
        throw new IllegalArgumentException("no practice disk can be made: " + part + ", seed " + seed);
    }

    /** A code for a disk that does not tell its seed. */
    private static String code(long seed, String part) {
        String hex = HexFormat.of().withUpperCase().toHexDigits(SplitMix64.derive(seed, "code of " + part));
        return hex.substring(0, 4) + "-" + hex.substring(4, 8);
    }

    /** The key, or null where a planted fault is not found. */
    private DiskKey key(String code, long seed, int level, int seat, Path image, MadeDisk made, List<FaultDrawing.Planted> planted) throws IOException {
        Findings findings = verify(image);
        List<Finding> failed = new ArrayList<>(findings.all().stream().filter(f -> f.verdict() == Verdict.FAILED).toList());
        List<KeyFault> faults = new ArrayList<>();
        for (FaultDrawing.Planted one : planted) {
            Finding finding = failed.stream().filter(f -> f.cause() == null && FaultMatch.finds(f, one)).findFirst().orElse(null);
            if (finding == null) {
                return null;
            }
            failed.removeIf(f -> f == finding || FaultMatch.finds(f, one));
            faults.add(fault(finding, one));
        }
        faults.sort(Comparator.comparingLong(f -> f.places().get(0).firstByte()));
        List<DiskKey.Consequence> also = failed.stream().map(f -> new DiskKey.Consequence(f.check(), f.where().start(), f.where().length())).toList();
        if (planted.isEmpty() && !also.isEmpty()) {
            return null;
        }
        DiskDescription disk = made.description();
        return new DiskKey(code, seed, level, seat, image.getFileName().toString(), disk.sectorSize(), disk.sectors(), FileHash.sha256(image, Progress.NONE), List.copyOf(faults),
                also, choices(level));
    }

    private KeyFault fault(Finding finding, FaultDrawing.Planted planted) {
        List<Place> places = new ArrayList<>();
        for (int i = 0; i < planted.spots().size(); i++) {
            places.add(new Place(planted.spots().get(i).firstByte(), planted.spots().get(i).right(), planted.wrong().get(i),
                    planted.around().get(i).firstByte(), planted.around().get(i).right()));
        }
        return new KeyFault(planted.kind().name(), finding.check(), words(finding.check()), List.copyOf(places), finding.where().start(), finding.volume(),
                finding.what(), finding.means(), finding.advice(), finding.source());
    }

    private String words(String check) {
        return book.statement(check).orElse(check);
    }

    private Map<String, String> choices(int level) {
        Map<String, String> choices = new TreeMap<>();
        FaultKind.all().stream().filter(kind -> kind.level() <= level).forEach(kind -> choices.put(kind.check(), words(kind.check())));
        return choices;
    }

    private Findings verify(Path image) throws IOException {
        try (OpenImage opened = Images.open(image, OpenOptions.DEFAULT.withSectorSize(512))) {
            Disk disk = Survey.of(opened, Progress.NONE);
            return Survey.ofProviders().verify(disk, Level.FULL, book, Progress.NONE);
        } catch (ImageException e) {
            throw new IOException(e.getMessage(), e);
        }
    }
}
