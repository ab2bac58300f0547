package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Level;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;
import sectorglass.make.Demo;
import sectorglass.testkit.Corpus;
import sectorglass.tests.MaskedImage.Filling;
import sectorglass.verify.Rule;

/**
 * Two properties over every registered check, before findings are folded, by rule and address. (1) Marking any sectors unread, whatever
 * stands there, changes a verdict only to <em>not checked</em>. (2) A check none of whose bytes were marked keeps its verdict, one that
 * the remaining read bytes decide is decided, and <em>not checked</em> names exactly the missing sectors: with those read the check is
 * decided, with fewer it is not.
 *
 * <p>Runs on images of the corpus, on the demo disks, on planted damage, and on damage by chance. The property {@code unread.masks}
 * sets how many masks each image gets.
 */
class UnreadPropertyTest {
    private static final int MASKS = Integer.getInteger("unread.masks", 2);
    private static final long LARGEST = 150L << 20;
    /** One image in so many of a folder gets masks, all of them with {@code unread.all=true}; the others are only asked for their rules. */
    private static final Map<String, Integer> FOLDERS = new TreeMap<>(Map.of("probe-partitions", 1, "probe-volumes", 4, "ntfs-volumes", 1,
            "exfat-damaged", 3, "fat-damaged", 3, "fat-volumes", 9, "ext-damaged", 9));

    /** Rules that no image reaches here, and why. */
    private static final Map<String, String> UNREACHED = new TreeMap<>(Map.ofEntries(
            Map.entry("ata.identify.checksum", "judges a file given beside the image, no sector of it"),
            Map.entry("ata.identify.device", "judges a file given beside the image, no sector of it"),
            Map.entry("ata.identify.image-sectors", "judges a file given beside the image, no sector of it"),
            Map.entry("ata.identify.sector-counts", "judges a file given beside the image, no sector of it"),
            Map.entry("ata.identify.strings", "judges a file given beside the image, no sector of it"),
            Map.entry("ata.smart.attribute", "judges a file given beside the image, no sector of it"),
            Map.entry("ata.smart.checksum", "judges a file given beside the image, no sector of it"),
            Map.entry("ata.smart.threshold-checksum", "judges a file given beside the image, no sector of it"),
            Map.entry("ntfs.attribute.list-target", "no volume here has an attribute list; the tests of its bundle make one"),
            Map.entry("ext.journal.commit-checksum", "no volume here has waiting transactions with checksums; the tests of its bundle make some"),
            Map.entry("ext.journal.descriptor-checksum", "no volume here has waiting transactions with checksums; the tests of its bundle make some"),
            Map.entry("ext.journal.tag-checksum", "no volume here has waiting transactions with checksums; the tests of its bundle make some"),
            Map.entry("hfs.journal.checksum", "no volume here has a journal; the tests of its bundle make one"),
            Map.entry("hfs.journal.header", "no volume here has a journal; the tests of its bundle make one"),
            Map.entry("hfs.journal.place", "no volume here has a journal; the tests of its bundle make one"),
            Map.entry("ext.orphan.checksum", "no volume here has an orphan file"),
            Map.entry("xfs.sb.secondary", "the image holds one allocation group only"),
            Map.entry("luks2.copies", "the image ends before the second header"),
            Map.entry("lvm.text.crc", "the image holds no metadata area"),
            Map.entry("md.events-equal", "compares several images; SetsTest makes them"),
            Map.entry("md.members-agree", "compares several images; SetsTest makes them"),
            Map.entry("md.copies-agree", "compares several images; SetsTest makes them")));

    /**
     * Rules that wait for a sector although none of the contents tried there changes their verdict: only bytes made for it do, and such
     * bytes may stand there.
     */
    private static final Map<String, String> CRAFTED = new TreeMap<>(Map.ofEntries(
            Map.entry("FAILED exfat.backup-checksum", "a sum that fails: the sector may bring it right"),
            Map.entry("FAILED exfat.main-checksum", "a sum that fails: the sector may bring it right"),
            Map.entry("FAILED exfat.upcase-checksum", "a sum that fails: the sector may bring it right"),
            Map.entry("FAILED exfat.bitmap-no-orphans", "clusters without owner: an entry in the sector may own them"),
            Map.entry("FAILED fat.no-orphans", "clusters without owner: an entry in the sector may own them"),
            Map.entry("FAILED ext.block.marked", "blocks without owner: an inode in the sector may own them"),
            Map.entry("PASSED exfat.chain-sound", "an entry set in the sector may name a broken chain"),
            Map.entry("PASSED exfat.contiguous-run-fits", "an entry set in the sector may name a run"),
            Map.entry("PASSED exfat.directory-length", "an entry set in the sector may name a directory"),
            Map.entry("PASSED exfat.no-shared-clusters", "an entry set in the sector may name clusters in use"),
            Map.entry("PASSED exfat.name-length", "an entry set in the sector may hold a name"),
            Map.entry("PASSED ext.block.claimed-once", "an inode in the sector may claim blocks in use"),
            Map.entry("PASSED ext.dir.entry", "the entries before the sector may reach into it"),
            Map.entry("PASSED ext.dir.type", "an entry in the sector may name an inode of another kind"),
            Map.entry("PASSED ext.dir.tree", "an inode in the sector may be a directory"),
            Map.entry("PASSED ext.gd.directories", "an inode in the sector may be a directory"),
            Map.entry("PASSED ext.links", "an inode in the sector may have a link count"),
            Map.entry("PASSED ntfs.attribute.walk", "a record that passes its fix-up may have broken attributes"),
            Map.entry("PASSED ntfs.record.fixup", "a sector may be torn in its last two bytes"),
            Map.entry("PASSED ntfs.record.sizes", "a record that passes its fix-up may have wrong sizes"),
            Map.entry("PASSED ntfs.index.block", "a block that passes its fix-up may have broken entries"),
            Map.entry("PASSED apfs.nx.latest", "a later checkpoint with a right checksum may stand in the sector")));

    /** Rules that name the unread sectors of a directory block together, although its entries may end in the first of them. */
    private static final Set<String> TOGETHER = Set.of("ext.dir.entry", "ext.dir.type", "ext.dir.dots", "ext.dir.tree", "ext.links");

    @TempDir
    static Path folder;
    private static final Set<String> REACHED = new TreeSet<>();

    @TestFactory
    Stream<DynamicTest> unreadSectorsOnlyTakeVerdictsAway() {
        List<DynamicTest> tests = new ArrayList<>();
        FOLDERS.forEach((name, step) -> {
            List<Path> packed = Corpus.files(name, "").stream().filter(UnreadPropertyTest::image).toList();
            int every = Boolean.getBoolean("unread.all") ? 1 : step;
            for (int i = 0; i < packed.size(); i++) {
                Path path = packed.get(i);
                boolean probed = i % every == 0;
                tests.add(DynamicTest.dynamicTest(name + "/" + path.getFileName(), () -> corpus(path, probed)));
            }
        });
        for (Demo.Variant variant : List.of(Demo.Variant.GPT, Demo.Variant.MBR)) {
            tests.add(DynamicTest.dynamicTest("demo " + variant, () -> demo(variant)));
        }
        for (Planted planted : Planted.all()) {
            tests.add(DynamicTest.dynamicTest(planted.name(), () -> {
                try (OpenImage image = planted.image(folder)) {
                    hold(image, MASKS + 3);
                }
            }));
        }
        tests.add(DynamicTest.dynamicTest("every rule was reached", UnreadPropertyTest::everyRule));
        return tests.stream();
    }

    private static boolean image(Path path) {
        return path.getFileName().toString().matches(".*\\.(xz|gz|bz2|img|raw|ntfs)");
    }

    private static void corpus(Path packed, boolean probed) throws Exception {
        Path file = Corpus.unpack(packed, folder);
        try {
            if (Files.size(file) <= LARGEST) {
                try (OpenImage image = Images.open(file, OpenOptions.DEFAULT)) {
                    if (!probed) {
                        REACHED.addAll(Verdicts.of(image, Level.FULL).rules());
                        return;
                    }
                    UnreadProbe sound = hold(image, MASKS);
                    Random random = new Random(file.getFileName().toString().hashCode());
                    long hit = sound.touched().get(random.nextInt(sound.touched().size()));
                    SectorImage damaged = MaskedImage.other(image, SectorRanges.of(hit, 1), Filling.flips(random.nextLong(), 1 + random.nextInt(4)));
                    check(new UnreadProbe(damaged, image, Level.FULL), MASKS);
                }
            }
        } finally {
            if (!file.equals(packed)) {
                Files.deleteIfExists(file);
            }
        }
    }

    private static void demo(Demo.Variant variant) throws Exception {
        try (OpenImage image = Images.open(Demo.write(folder, variant).image(), OpenOptions.DEFAULT)) {
            hold(image, 1);
        }
    }

    private static UnreadProbe hold(SectorImage image, int masks) {
        UnreadProbe probe = new UnreadProbe(image, image, Level.FULL);
        check(probe, masks);
        return probe;
    }

    private static void check(UnreadProbe probe, int masks) {
        probe.probe(masks);
        REACHED.addAll(probe.base().rules());
        Map<String, String> faults = new TreeMap<>(probe.faults());
        CRAFTED.keySet().forEach(known -> faults.remove(UnreadProbe.IN_VAIN + known));
        TOGETHER.forEach(known -> faults.remove(UnreadProbe.TOO_MANY + known));
        assertEquals(Map.of(), faults);
    }

    /** The properties mean something for a rule only where some image makes it answer. */
    private static void everyRule() {
        Set<String> unreached = new TreeSet<>();
        for (Rule rule : Verdicts.BOOK.rules()) {
            if (!REACHED.contains(rule.id())) {
                unreached.add(rule.id());
            }
        }
        assertEquals(UNREACHED.keySet(), unreached, "rules that nothing reached, against those known to be out of reach");
    }
}
