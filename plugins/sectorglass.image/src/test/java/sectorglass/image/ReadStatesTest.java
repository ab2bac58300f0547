package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Fillers, holes, and how sources of read states go together. */
class ReadStatesTest {
    private static final int SECTORS = 2000;
    @TempDir
    Path folder;

    @Test
    void aReadMapBesideTheImageIsMentionedUntilStatesAreKnown() throws Exception {
        Path image = Files.write(folder.resolve("b.img"), new byte[4096]);
        Path other = Files.writeString(folder.resolve("b.img.csv"), "path,size\nletter.txt,5\n");
        try (OpenImage open = Images.open(image, OpenOptions.DEFAULT)) {
            assertEquals(List.of(), open.remarks());
        }
        Files.writeString(folder.resolve("b.csv"), "# from the bench\nfirst_lba,sectors,state\n0,4,read\n");
        try (OpenImage open = Images.open(image, OpenOptions.DEFAULT.withLocale(Locale.GERMAN))) {
            assertTrue(open.remarks().get(0).startsWith("b.csv liegt neben dem Abbild"), open.remarks().toString());
            OpenImage known = open.withStates(open.states().with(ReadStateSources.Kind.READ_MAP, "b.csv", ReadMap.load(folder.resolve("b.csv"))));
            assertEquals(List.of(), known.remarks());
        }
        try (OpenImage open = Images.open(image, OpenOptions.DEFAULT.withReadMap(folder.resolve("b.csv")))) {
            assertTrue(open.remarks().stream().noneMatch(r -> r.contains("beside")), open.remarks().toString());
        }
        assertEquals(Optional.of(folder.resolve("b.csv")), ReadMap.beside(image));
        assertTrue(Files.exists(other));
    }

    /** Random content, in which sectors 500 to 899 hold a filler: {@code N}, {@code B} and {@code H} stand for LBA, byte, LBA in hex. */
    private Path filled(String pattern) throws Exception {
        byte[] disk = new byte[SECTORS * 512];
        new Random(1).nextBytes(disk);
        for (int lba = 500; lba < 900; lba++) {
            String text = pattern.replace("{N}", "" + lba).replace("{B}", "" + lba * 512).replace("{H}", String.format("%08X", lba));
            byte[] one = text.getBytes(StandardCharsets.ISO_8859_1);
            for (int i = 0; i < 512; i++) {
                disk[lba * 512 + i] = one[i % one.length];
            }
        }
        return Files.write(folder.resolve("a.img"), disk);
    }

    @ParameterizedTest
    @ValueSource(strings = {"\u0000", "\u00E5", "not read ", "\u00DE\u00AD\u00BE\u00EF", "[{N}] unread ", "offset={B};", "at 0x{H} no data, ",
        "sector {N} of a disk that could not be read, filled with a text that is longer "})
    void fillersAreFoundAndOffered(String pattern) throws Exception {
        try (OpenImage image = Images.open(filled(pattern))) {
            assertEquals(0, image.inState(ReadState.UNREAD, image.all()).count(), "a filler is never assumed");
            List<Filler> found = FillerFinder.find(image, 500, Locale.ENGLISH, Progress.NONE);
            assertEquals(1, found.size(), found::toString);
            Filler filler = found.get(0);
            assertTrue(filler.share() > 0.15 && filler.share() < 0.25, filler::toString);
            assertTrue(filler.example() >= 500 && filler.example() < 900, filler::toString);
            SectorRanges ranges = filler.ranges(image, Progress.NONE);
            assertEquals(SectorRanges.of(500, 400), ranges);
            ReadStateSources accepted = image.states().with(ReadStateSources.Kind.FILLER, filler.words(),
                    ReadMap.of(ranges, ReadState.UNREAD));
            OpenImage judged = image.withStates(accepted);
            assertEquals(ReadState.UNREAD, judged.sector(600).state(0));
            assertEquals(ReadState.READ, judged.sector(900).state(0));
        }
    }

    @Test
    void stampsInBinaryAreFound() throws Exception {
        byte[] disk = new byte[SECTORS * 512];
        new Random(1).nextBytes(disk);
        for (int lba = 500; lba < 900; lba++) {
            java.nio.ByteBuffer sector = java.nio.ByteBuffer.wrap(disk, lba * 512, 512).order(java.nio.ByteOrder.LITTLE_ENDIAN);
            for (int i = 0; i < 32; i++) {
                sector.putInt(0x0BAD0BAD).putInt(0x11111111).putLong(lba * 512L);
            }
        }
        try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), disk))) {
            List<Filler> found = FillerFinder.find(image, FillerFinder.SAMPLES, Locale.ENGLISH, Progress.NONE);
            assertEquals(Filler.Kind.STAMPED, found.get(0).kind());
            assertEquals(SectorRanges.of(500, 400), found.get(0).ranges(image, Progress.NONE));
        }
    }

    @Test
    void aStampBeforePaddingIsFound() throws Exception {
        byte[] disk = new byte[SECTORS * 512];
        new Random(1).nextBytes(disk);
        for (int lba = 0; lba < 1100; lba++) {
            byte[] text = ("no data for sector " + lba + " here").getBytes(StandardCharsets.US_ASCII);
            java.util.Arrays.fill(disk, lba * 512, lba * 512 + 512, (byte) '.');
            System.arraycopy(text, 0, disk, lba * 512, text.length);
        }
        try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), disk))) {
            List<Filler> found = FillerFinder.find(image, 500, Locale.ENGLISH, Progress.NONE);
            assertEquals(1, found.size(), found::toString);
            assertTrue(found.get(0).words().contains("no data for sector # here.…"), found::toString);
            assertEquals(SectorRanges.of(0, 1100), found.get(0).ranges(image, Progress.NONE));
        }
    }

    @Test
    void aTextThatHoldsADigitFillsEverySector() throws Exception {
        byte[] disk = new byte[SECTORS * 512];
        for (int i = 0; i < disk.length; i++) {
            disk[i] = (byte) "error 7 ".charAt(i % 8);
        }
        try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), disk))) {
            Filler found = FillerFinder.find(image, 500, Locale.ENGLISH, Progress.NONE).get(0);
            assertEquals(Filler.Kind.TEXT, found.kind());
            assertEquals(SectorRanges.of(0, SECTORS), found.ranges(image, Progress.NONE));
        }
    }

    @Test
    void contentIsNoFiller() throws Exception {
        byte[] disk = new byte[SECTORS * 512];
        new Random(2).nextBytes(disk);
        try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), disk))) {
            assertEquals(List.of(), FillerFinder.find(image, 1000, Locale.ENGLISH, Progress.NONE));
        }
    }

    @Test
    void holesAreKnownWherePlatformTellsAndOffered() throws Exception {
        Path file = folder.resolve("a.img");
        int mib = 1 << 20;
        try (RandomAccessFile sparse = new RandomAccessFile(file.toFile(), "rw")) {
            sparse.setLength(10 * mib);
            sparse.seek(3 * mib);
            sparse.write(TestFiles.numbers(0, mib));
        }
        Optional<Holes> holes = Holes.of(file);
        Assumptions.assumeTrue(holes.isPresent() && !holes.get().ranges().isEmpty(), "holes are not known on this file system");
        assertEquals(List.of(new ByteRange(0, 3 * mib), new ByteRange(4 * mib, 6 * mib)), holes.get().ranges());
        try (OpenImage image = Images.open(file)) {
            SectorRanges sectors = image.holes().orElseThrow();
            assertEquals("[0..6143, 8192..20479]", sectors.toString());
            assertTrue(image.sector(0).isRead(0, 512), "a hole may be a true zero");
            OpenImage judged = image.withStates(image.states().with(ReadStateSources.Kind.HOLES, "holes",
                    ReadMap.of(sectors, ReadState.UNREAD)));
            assertFalse(judged.sector(0).isRead(0, 512));
            assertTrue(judged.sector(6144).isRead(0, 512));
        }
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withDumpForm(DumpForm.PLAIN.withHeader(100)))) {
            assertEquals("[0..6142, 8192..20478]", image.holes().orElseThrow().toString(), "only sectors wholly in a hole");
        }
        assertEquals(Optional.empty(), Holes.of(folder.resolve("none")));
        Path full = TestFiles.numbered(folder.resolve("b.img"), 5000);
        assertEquals(List.of(), Holes.of(full).orElseThrow().ranges());
    }

    @Test
    void theStrongerSourceCountsAndSilenceMeansReadOnlyWithoutMapsAndLogs() {
        ReadMap map = ReadMap.of(SectorRanges.of(0, 10), ReadState.READ);
        ReadMap filler = ReadMap.of(SectorRanges.of(5, 10), ReadState.UNREAD);
        ReadStateSources one = ReadStateSources.NONE.with(ReadStateSources.Kind.FILLER, "filler", filler);
        assertEquals("[0..4, 15..19]", one.combined(20).inState(ReadState.READ, new SectorRange(0, 20)).toString());
        ReadStateSources two = one.with(ReadStateSources.Kind.READ_MAP, "map", map);
        assertEquals("[0..9]", two.combined(20).inState(ReadState.READ, new SectorRange(0, 20)).toString());
        assertEquals("map", two.deciding(7).name());
        assertEquals("filler", two.deciding(12).name());
        assertEquals(null, two.deciding(17));
        assertEquals(1, two.conflicts().size());
        assertEquals("[5..9]", two.conflicts().get(0).sectors().toString());
        ReadStateSources later = two.with(ReadStateSources.Kind.READ_MAP, "second pass", ReadMap.of(SectorRanges.of(3, 1), ReadState.FAILED));
        assertEquals(ReadState.FAILED, later.combined(20).state(3), "of two maps the later given counts");
        assertEquals(null, ReadStateSources.NONE.combined(20));
        assertEquals("[0..9]", later.without(ReadStateSources.Kind.FILLER).without(ReadStateSources.Kind.READ_MAP)
                .with(ReadStateSources.Kind.TEXT_LOG, "log", map).combined(20).inState(ReadState.READ, new SectorRange(0, 20)).toString());
    }

    @Test
    void stoppingAScanStopsIt() throws Exception {
        try (OpenImage image = Images.open(filled("x"))) {
            Progress stop = new Progress() {
                @Override
                public boolean cancelled() {
                    return true;
                }

                @Override
                public void at(String what, long done, long total) {
                    // nobody watches
                }
            };
            org.junit.jupiter.api.Assertions.assertThrows(Progress.Stopped.class,
                    () -> FillerFinder.find(image, 10, Locale.ENGLISH, stop));
        }
    }
}
