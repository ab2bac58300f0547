package sectorglass.disk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;

import org.junit.jupiter.api.Test;

import sectorglass.disk.MapEntry.Use;
import sectorglass.disk.PartitionMap.Copy;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

class SurveyTest {
    private static final RuleBook BOOK = new RuleBook(List.of(new DiskRules()), Locale.ENGLISH);

    private static Disk disk(Fake.Image image, List<PartitionMap> maps, VolumeProvider volumes) {
        return new Survey(List.of(new Fake.Maps(maps, List.of())), List.of(volumes)).disk(image, Progress.NONE);
    }

    @Test
    void numbersUsedEntriesContainerBeforeContentAndLeavesOutWhatOnlyStandsForOthers() {
        PartitionMap mbr = Fake.map("mbr", 0, Copy.PRIMARY, false, Fake.entry(1, 2048, 100, Use.PARTITION), Fake.entry(2, 5000, 900, Use.CONTAINER),
                Fake.entry(3, 9000, 50, Use.PARTITION));
        PartitionMap ebr = Fake.map("ebr", 5000, Copy.PRIMARY, false, Fake.entry(5, 5063, 100, Use.PARTITION), Fake.entry(6, 2048, 100, Use.PARTITION));
        PartitionMap old = Fake.map("gpt", 1, Copy.PRIMARY, true, Fake.entry(1, 34, 10, Use.PARTITION));
        PartitionMap backup = Fake.map("gpt", 9999, Copy.BACKUP, true, Fake.entry(1, 34, 10, Use.PARTITION));
        Disk disk = disk(Fake.image(10_000), List.of(ebr, mbr, old, backup), new Fake.Volumes(0));
        assertEquals(List.of("1: 2048 map 0 slot 1", "2: 9000 map 0 slot 3", "3: 5063 map 2 slot 5"), disk.partitions().stream()
                .map(p -> p.number() + ": " + p.range().first() + " map " + p.map() + " slot " + p.entry().slot()).toList());
    }

    @Test
    void listsABackupOnlyWhereNothingElseIsLeftOfItsMap() {
        PartitionMap backup = Fake.map("gpt", 9999, Copy.BACKUP, false, Fake.entry(1, 34, 10, Use.PARTITION));
        assertEquals(1, disk(Fake.image(10_000), List.of(backup), new Fake.Volumes(0)).partitions().size());
        PartitionMap primary = Fake.map("gpt", 1, Copy.PRIMARY, false, Fake.entry(1, 34, 20, Use.PARTITION));
        Disk both = disk(Fake.image(10_000), List.of(backup, primary), new Fake.Volumes(0));
        assertEquals(1, both.partitions().size());
        assertEquals(20, both.partitions().get(0).range().count());
    }

    @Test
    void anImageWithoutAMapMayBeOneVolume() {
        assertNotNull(disk(Fake.image(100), List.of(), new Fake.Volumes(512, 0L)).volume());
        PartitionMap leftover = Fake.map("gpt", 1, Copy.BACKUP, true, Fake.entry(1, 34, 10, Use.PARTITION));
        assertNotNull(disk(Fake.image(100), List.of(leftover), new Fake.Volumes(512, 0L)).volume());
        PartitionMap map = Fake.map("mbr", 0, Copy.PRIMARY, false, Fake.entry(1, 34, 10, Use.PARTITION));
        assertNull(disk(Fake.image(100), List.of(map), new Fake.Volumes(512, 0L)).volume());
    }

    @Test
    void aMapFitsOnlyWhereVolumesStandAndAgree() {
        PartitionMap map = Fake.map("mbr", 0, Copy.PRIMARY, false, Fake.entry(1, 100, 10, Use.PARTITION), Fake.entry(2, 200, 10, Use.PARTITION));
        assertEquals(Boolean.TRUE, fits(Fake.image(1000), map, new Fake.Volumes(5120, 100L)));
        assertEquals(Boolean.FALSE, fits(Fake.image(1000), map, new Fake.Volumes(5121, 100L)));
        assertEquals(Boolean.FALSE, fits(Fake.image(1000), map, new Fake.Volumes(0)));
        Fake.Image partly = new Fake.Image(new byte[0], 1000 * 512, SectorRanges.of(200, 1));
        assertNull(fits(partly, map, new Fake.Volumes(0)), "an unread head is no empty place");
        assertEquals(Boolean.TRUE, fits(partly, map, new Fake.Volumes(512, 100L)));
    }

    @Test
    void aSliceWithItsOwnMapIsFilled() {
        PartitionMap mbr = Fake.map("mbr", 0, Copy.PRIMARY, false, Fake.entry(1, 100, 50, Use.PARTITION));
        PartitionMap bsd = Fake.map("bsd", 101, Copy.PRIMARY, false, Fake.entry(1, 110, 10, Use.PARTITION));
        Survey survey = new Survey(List.of(new Fake.Maps(List.of(mbr, bsd), List.of())), List.of(new Fake.Volumes(0)));
        List<MapVerdict> verdicts = survey.judge(survey.disk(Fake.image(1000), Progress.NONE), BOOK);
        assertEquals(Boolean.TRUE, verdicts.get(0).fitsContent());
        assertEquals(Boolean.FALSE, verdicts.get(1).fitsContent());
    }

    private static Boolean fits(Fake.Image image, PartitionMap map, VolumeProvider volumes) {
        Survey survey = new Survey(List.of(new Fake.Maps(List.of(map), List.of())), List.of(volumes));
        return survey.judge(survey.disk(image, Progress.NONE), BOOK).get(0).fitsContent();
    }

    private static Findings displaced(Witness... witnesses) {
        PartitionMap map = Fake.map("mbr", 0, Copy.PRIMARY, false, Fake.entry(1, 100, 10, Use.PARTITION));
        Survey survey = new Survey(List.of(new Fake.Maps(List.of(map), List.of(witnesses))), List.of(new Fake.Volumes(512, 100L)));
        return survey.verify(survey.disk(Fake.image(10_000), Progress.NONE), Level.QUICK, BOOK, Progress.NONE);
    }

    private static Finding displacement(Findings findings) {
        return findings.all().stream().filter(f -> f.check().equals("disk.displacement")).findFirst().orElseThrow();
    }

    @Test
    void aConstantShiftFromOneLbaOnIsOneFinding() {
        Finding found = displacement(displaced(new Witness(512, 512, "a"), new Witness(2000 * 512, 1992 * 512, "b"), new Witness(9999 * 512, 9991 * 512, "c")));
        assertEquals(Verdict.FAILED, found.verdict());
        assertEquals(2000 * 512, found.where().start());
        assertTrue(found.what().contains("From LBA 2000 on the content lies 8 sectors late"), found.what());
        assertEquals(Verdict.PASSED, displacement(displaced(new Witness(512, 512, "a"), new Witness(1024, 1024, "b"))).verdict());
        assertEquals(Verdict.PASSED, displacement(displaced(new Witness(512, 512, "a"), new Witness(1024, 512, "one alone proves nothing"))).verdict());
    }

    @Test
    void aRepeatOfTheBeginningAtTwoToThe28thIsWrapping() {
        Fake.Image zeros = new Fake.Image(new byte[0], (1L << 28) * 512 + 100 * 512, SectorRanges.EMPTY);
        assertTrue(wrapping(zeros).isEmpty(), "an image of zeros repeats itself without any meaning");
        byte[] head = new byte[16 * 512];
        new Random(7).nextBytes(head);
        Fake.Image straight = new Fake.Image(head, zeros.bytes(), SectorRanges.EMPTY);
        assertEquals(Verdict.PASSED, wrapping(straight).get(0).verdict());
        Finding wrapped = wrapping(new Wrapped(straight, SectorRanges.EMPTY)).get(0);
        assertEquals(Verdict.FAILED, wrapped.verdict());
        assertEquals((1L << 28) * 512, wrapped.where().start());
        Finding open = wrapping(new Wrapped(straight, SectorRanges.of((1L << 28) + 3, 2))).get(0);
        assertEquals(Verdict.NOT_CHECKED, open.verdict());
        assertEquals(SectorRanges.of((1L << 28) + 3, 2), open.missing());
    }

    private static List<Finding> wrapping(sectorglass.image.SectorImage image) {
        return new Survey(List.of(), List.of()).verify(new Disk(image, List.of(), List.of(), null), Level.QUICK, BOOK, Progress.NONE).all();
    }

    /** Reads as a reader does that keeps 28 bits of each LBA. */
    record Wrapped(Fake.Image base, SectorRanges unread) implements sectorglass.image.SectorImage {
        @Override
        public String name() {
            return "wrapped";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public long bytes() {
            return base.bytes();
        }

        @Override
        public sectorglass.image.SectorStates read(long firstByte, byte[] into, int offset, int length) {
            base.read(firstByte & (1L << 37) - 1, into, offset, length);
            return sectorglass.image.SectorStates.allRead(512, firstByte, length).with(unread, sectorglass.image.ReadState.UNREAD);
        }

        @Override
        public sectorglass.image.ReadState state(long lba) {
            return base.state(lba);
        }

        @Override
        public SectorRanges inState(sectorglass.image.ReadState state, sectorglass.image.SectorRange within) {
            return base.inState(state, within);
        }
    }

    @Test
    void samplesTellKindsApart() {
        Sampler sampler = new Sampler(List.of());
        byte[] bytes = new byte[4096];
        assertEquals(Sampler.Kind.ZERO, sampler.kind(Window.ofRead(bytes, 0, 512)));
        java.util.Arrays.fill(bytes, (byte) 0xFF);
        assertEquals(Sampler.Kind.REPEATED, sampler.kind(Window.ofRead(bytes, 0, 512)));
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) "NOT READ".charAt(i % 8);
        }
        assertEquals(Sampler.Kind.REPEATED, sampler.kind(Window.ofRead(bytes, 0, 512)));
        new Random(1).nextBytes(bytes);
        assertEquals(Sampler.Kind.HIGH_ENTROPY, sampler.kind(Window.ofRead(bytes, 0, 512)));
        byte[] text = "The quick brown fox jumps over the lazy dog. ".repeat(100).substring(0, 4096).getBytes(java.nio.charset.StandardCharsets.US_ASCII);
        assertEquals(Sampler.Kind.TEXT, sampler.kind(Window.ofRead(text, 0, 512)));
    }

    @Test
    void samplingReadsAtMostOneMebibyteWhateverTheSize() {
        List<Long> reads = new ArrayList<>();
        Fake.Image huge = new Fake.Image(new byte[0], 40_000_000_000L * 512, SectorRanges.EMPTY);
        sectorglass.image.SectorImage counting = new sectorglass.image.SectorImage() {
            @Override
            public String name() {
                return "counting";
            }

            @Override
            public int sectorSize() {
                return 512;
            }

            @Override
            public long bytes() {
                return huge.bytes();
            }

            @Override
            public sectorglass.image.SectorStates read(long firstByte, byte[] into, int offset, int length) {
                reads.add((long) length);
                assertTrue(firstByte >= 0 && firstByte + length <= bytes());
                return huge.read(firstByte, into, offset, length);
            }

            @Override
            public sectorglass.image.ReadState state(long lba) {
                return huge.state(lba);
            }

            @Override
            public SectorRanges inState(sectorglass.image.ReadState state, sectorglass.image.SectorRange within) {
                return huge.inState(state, within);
            }
        };
        assertEquals(256, new Sampler(List.of()).sample(counting).zero());
        assertTrue(reads.stream().mapToLong(Long::longValue).sum() <= 1 << 20);
    }
}
