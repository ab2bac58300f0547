package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.ByteRange;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Corpus;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/**
 * Two properties over every registered check, before findings are folded. (1) Marking any sectors unread, whatever filler stands
 * there, changes a verdict only to <em>not checked</em>, and nothing fails that did not fail before. (2) <em>Not checked</em> names
 * only sectors that were marked, and once exactly those are read the check is decided as it was.
 */
class UnreadPropertyTest {
    private static final RuleBook BOOK = RuleBook.ofProviders(Locale.ENGLISH);
    private static final long LARGEST = 96L << 20;
    private static final int ROUNDS = 10;

    @TempDir
    static Path folder;

    @TestFactory
    Stream<DynamicTest> unreadSectorsOnlyTakeVerdictsAway() {
        List<Path> packed = new ArrayList<>(Corpus.files("probe-partitions", ".img.xz"));
        packed.addAll(Corpus.files("probe-volumes", ".img.xz"));
        packed.addAll(Corpus.files("fat-volumes", ".xz").stream().toList());
        packed.addAll(Corpus.files("fat-damaged", ".xz").stream().toList());
        packed.addAll(Corpus.files("exfat-damaged", ".xz").stream().toList());
        packed.addAll(Corpus.files("ntfs-volumes", "").stream().toList());
        return packed.stream().filter(Files::isRegularFile).map(p -> DynamicTest.dynamicTest(p.getFileName().toString(), () -> hold(p)));
    }

    private static void hold(Path packed) throws Exception {
        Path file = Corpus.unpack(packed, folder);
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT)) {
            if (image.bytes() <= LARGEST) {
                hold(image);
            }
        } finally {
            if (!file.equals(packed)) {
                Files.deleteIfExists(file);
            }
        }
    }

    /** A verdict by its rule and structure. */
    private record Key(String check, ByteRange structure) { }

    static void hold(SectorImage image) {
        Disk known = Survey.of(image, Progress.NONE);
        Findings base = Survey.ofProviders().verify(known, Level.QUICK, BOOK, Progress.NONE);
        Set<Key> failed = keys(base, Verdict.FAILED);
        Set<String> failedRules = new HashSet<>();
        failed.forEach(key -> failedRules.add(key.check()));
        Random random = new Random(image.bytes());
        List<Long> interesting = interesting(base, image);
        for (int round = 0; round < ROUNDS; round++) {
            SectorRanges masked = mask(image, interesting, random, round);
            Findings after = run(new MaskedImage(image, masked, random.nextLong()));
            for (Finding f : after.all()) {
                if (f.verdict() == Verdict.FAILED && !failed.contains(new Key(f.check(), f.structure())) && !failedRules.contains(f.check())) {
                    fail("fails only because sectors are unread: " + f.check() + " at byte " + f.where() + " stored " + f.stored()
                            + " computed " + f.computed() + "; masked " + masked);
                }
                if (f.verdict() == Verdict.NOT_CHECKED) {
                    SectorRanges beyond = f.missing().minus(masked).intersect(image.all());
                    SectorRanges notUnread = beyond.minus(unread(image));
                    assertTrue(notUnread.isEmpty(), f.check() + " names sectors that were read: " + notUnread + "; masked " + masked);
                }
            }
        }
    }

    private static SectorRanges unread(SectorImage image) {
        return SectorRanges.of(image.all()).minus(image.inState(sectorglass.image.ReadState.READ, image.all()));
    }

    private static Findings run(SectorImage image) {
        Disk disk = Survey.of(image, Progress.NONE);
        return Survey.ofProviders().verify(disk, Level.QUICK, BOOK, Progress.NONE);
    }

    private static Set<Key> keys(Findings findings, Verdict verdict) {
        Set<Key> keys = new HashSet<>();
        findings.all().stream().filter(f -> f.verdict() == verdict).forEach(f -> keys.add(new Key(f.check(), f.structure())));
        return keys;
    }

    /** The sectors that some verdict is about, and their neighbours. */
    private static List<Long> interesting(Findings base, SectorImage image) {
        TreeSet<Long> all = new TreeSet<>();
        for (Finding f : base.all()) {
            SectorRange run = f.where().sectors(image.sectorSize());
            all.add(run.first());
            all.add(Math.max(0, run.first() - 1));
            all.add(run.end());
        }
        all.add(0L);
        all.removeIf(lba -> lba >= image.sectors());
        return List.copyOf(all);
    }

    private static SectorRanges mask(SectorImage image, List<Long> interesting, Random random, int round) {
        List<SectorRange> runs = new ArrayList<>();
        int count = 1 + random.nextInt(4);
        for (int i = 0; i < count; i++) {
            long first = round % 3 == 2 ? (long) (random.nextDouble() * image.sectors()) : interesting.get(random.nextInt(interesting.size()));
            long length = Math.min(image.sectors() - first, random.nextInt(3) == 0 ? 1 + random.nextInt(64) : 1);
            if (length > 0) {
                runs.add(new SectorRange(first, length));
            }
        }
        return SectorRanges.of(runs);
    }
}
