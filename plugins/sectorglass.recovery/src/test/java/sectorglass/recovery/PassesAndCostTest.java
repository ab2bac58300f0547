package sectorglass.recovery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.ReadMap;
import sectorglass.image.ReadState;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

class PassesAndCostTest {
    @TempDir
    Path folder;

    private static SectorRanges ranges(long... firstAndCount) {
        SectorRanges.Builder builder = new SectorRanges.Builder();
        for (int i = 0; i < firstAndCount.length; i += 2) {
            builder.add(firstAndCount[i], firstAndCount[i + 1]);
        }
        return builder.build();
    }

    @Test
    void eachPassSaysWhatItAdded() {
        ReadMap first = ReadMap.of(ranges(0, 50), ranges(50, 10), ranges(60, 5), ranges(65, 35));
        ReadMap second = ReadMap.of(ranges(50, 4, 60, 30), ranges(54, 6), SectorRanges.EMPTY, SectorRanges.EMPTY);
        ReadMap third = ReadMap.of(ranges(54, 1), ranges(55, 2, 90, 1), SectorRanges.EMPTY, SectorRanges.EMPTY);
        PassHistory history = PassHistory.of(List.of("a", "b", "c"), List.of(first, second, third), 100);
        assertEquals(new PassHistory.Pass("a", 50, 0, 10, 50), history.passes().get(0));
        assertEquals(new PassHistory.Pass("b", 34, 4, 6, 16), history.passes().get(1));
        assertEquals(new PassHistory.Pass("c", 1, 1, 3, 15), history.passes().get(2));
        assertEquals(ranges(55, 5), history.failedAgain());
        assertEquals(ranges(90, 1), history.failedOnce());
        assertEquals(85, history.map().count(ReadState.READ));
        assertEquals(6, history.map().count(ReadState.FAILED));
    }

    @Test
    void passesAgreeWithASlowCountSectorBySector() {
        Random random = new Random(5);
        for (int round = 0; round < 200; round++) {
            int passes = 1 + random.nextInt(4);
            ReadState[][] states = new ReadState[passes][40];
            ReadMap[] maps = new ReadMap[passes];
            for (int p = 0; p < passes; p++) {
                ReadMap.Builder builder = new ReadMap.Builder();
                for (int i = 0; i < 40; i++) {
                    states[p][i] = ReadState.values()[random.nextInt(4)];
                    builder.add(i, 1, states[p][i], ReadMap.NO_HEAD);
                }
                maps[p] = builder.build();
            }
            PassHistory history = PassHistory.of(java.util.Collections.nCopies(passes, "p"), List.of(maps), 40);
            for (int i = 0; i < 40; i++) {
                boolean read = false;
                int failed = 0;
                for (int p = 0; p < passes; p++) {
                    failed += !read && states[p][i] == ReadState.FAILED ? 1 : 0;
                    read |= states[p][i] == ReadState.READ;
                }
                assertEquals(!read && failed >= 2, history.failedAgain().contains(i));
                assertEquals(!read && failed == 1, history.failedOnce().contains(i));
                assertEquals(read, history.map().state(i) == ReadState.READ);
            }
        }
    }

    @Test
    void smallGapsAreReadAndLargeOnesAndForbiddenOnesAreNot() {
        ReadCost cost = new ReadCost(512_000, 0.02);
        assertEquals(20, cost.largestGap(512));
        SectorRanges wanted = ranges(0, 10, 30, 10, 61, 10, 75, 5);
        SectorRanges all = ranges(0, 100);
        assertEquals(ranges(0, 40, 61, 19), cost.bridged(wanted, 512, all));
        assertEquals(ranges(0, 40, 61, 10, 75, 5), cost.bridged(wanted, 512, all.minus(ranges(73, 1))));
        assertEquals(wanted, new ReadCost(512_000, 0).bridged(wanted, 512, all));
        assertEquals(35 * 512 / 512_000.0 + 4 * 0.02, cost.seconds(wanted, 512), 1e-9);
        assertThrows(IllegalArgumentException.class, () -> new ReadCost(0, 0.1));
        assertThrows(IllegalArgumentException.class, () -> new ReadCost(Double.NaN, 0.1));
    }

    private HeadZones zones(String text) throws IOException {
        return HeadZones.load(Files.writeString(folder.resolve("zones.csv"), text));
    }

    @Test
    void zonesAreReadAndContradictionsRefused() throws IOException {
        HeadZones zones = zones("first_lba,sectors,head\n# worst first\n0,10,3\n20,5,3\n10,10,0\n");
        assertEquals(ranges(0, 10, 20, 5), zones.of(List.of(3)));
        assertEquals(SectorRanges.EMPTY, zones.of(List.of(7)));
        assertTrue(assertThrows(IOException.class, () -> zones("0,10,0\n5,10,1\n")).getMessage().contains("sector 5"));
        assertTrue(assertThrows(IOException.class, () -> zones("0,10,0\n5,x,1\n")).getMessage().contains("line 2"));
        assertTrue(assertThrows(IOException.class, () -> zones("0,10\n")).getMessage().contains("line 1"));
        assertThrows(IOException.class, () -> zones("0,9223372036854775807,0\n9223372036854775807,5,1\n"));
    }

    private static ReadPlan.Stage stage(ReadPlan.Kind kind, SectorRanges ranges) {
        return new ReadPlan.Stage(kind, null, ranges, "because", true);
    }

    @Test
    void weakHeadsComeLastAndNoSectorTwice() {
        List<ReadPlan.Stage> wanted = List.of(stage(ReadPlan.Kind.HEADS, ranges(0, 10, 90, 4)), stage(ReadPlan.Kind.ALLOCATED, ranges(12, 30, 50, 6)),
                stage(ReadPlan.Kind.SECOND_PASS, ranges(44, 2)));
        PlanOptions options = PlanOptions.DEFAULT.withHeads(ranges(5, 10, 90, 2), null).withCost(new ReadCost(512_000, 0.02));
        List<ReadPlan.Stage> shaped = new PlanShape(options, new SectorRange(0, 100), ranges(44, 2), 512).shape(wanted);
        SectorRanges seen = SectorRanges.EMPTY;
        boolean weakBegan = false;
        for (ReadPlan.Stage stage : shaped) {
            assertTrue(seen.intersect(stage.ranges()).isEmpty(), shaped.toString());
            seen = seen.union(stage.ranges());
            assertFalse(weakBegan && !stage.weak(), "weak ones last");
            weakBegan |= stage.weak();
            assertTrue(stage.weak() || stage.ranges().intersect(ranges(5, 10, 90, 2)).isEmpty());
        }
        for (ReadPlan.Stage stage : wanted) {
            assertTrue(stage.ranges().minus(seen).isEmpty(), "nothing is forgotten");
        }
        assertTrue(shaped.stream().noneMatch(s -> s.kind() == ReadPlan.Kind.ALLOCATED && s.ranges().contains(44)), "a gap never leads through a failed place");
        List<ReadPlan.Stage> one = new PlanShape(PlanOptions.DEFAULT.withHeads(SectorRanges.EMPTY, ranges(0, 20)), new SectorRange(0, 100), SectorRanges.EMPTY, 512).shape(wanted);
        assertEquals(ranges(0, 10), one.get(0).ranges());
        assertEquals(ranges(12, 8), one.get(1).ranges());
        assertEquals(2, one.size());
    }

    @Test
    void zonesThatAreGivenAndTakenAreKeptAsTheyAreRead() throws IOException {
        HeadZones zones = HeadZones.NONE.with(0, new SectorRange(0, 100)).with(3, new SectorRange(40, 20)).with(0, new SectorRange(200, 10)).without(new SectorRange(205, 50));
        assertEquals(ranges(0, 40, 60, 40, 200, 5), zones.of(List.of(0)));
        assertEquals(ranges(40, 20), zones.of(List.of(3)));
        Path file = folder.resolve("drawn.zones.csv");
        zones.save(file);
        assertEquals(List.of("first_lba,sectors,head", "0,40,0", "40,20,3", "60,40,0", "200,5,0"), Files.readAllLines(file));
        assertEquals(zones, HeadZones.load(file));
        assertThrows(IllegalArgumentException.class, () -> HeadZones.NONE.with(64, new SectorRange(0, 1)));
    }

    @Test
    void passesOfAJobAreReadBesideItAndStandInPlaceOfOtherMaps() throws Exception {
        Files.writeString(folder.resolve("one.csv"), "first_lba,sectors,state\n0,10,read\n10,5,failed\n");
        Files.writeString(folder.resolve("two.csv"), "first_lba,sectors,state\n10,2,read\n12,3,failed\n");
        Path job = folder.resolve("job.json");
        java.time.Instant at = java.time.Instant.EPOCH;
        Job known = Job.empty().withPass(new Job.Pass("first", at, "one.csv", null)).withPass(new Job.Pass("no map", at, null, null))
                .withPass(new Job.Pass("second", at, folder.resolve("two.csv").toString(), null));
        PassHistory history = JobPasses.history(known, job, 20);
        assertEquals(List.of(new PassHistory.Pass("first", 10, 0, 5, 10), new PassHistory.Pass("second", 2, 2, 3, 8)), history.passes());
        assertEquals(ranges(12, 3), history.failedAgain());
        assertTrue(JobPasses.has(known, job, folder.resolve("sub/../one.csv")));
        assertFalse(JobPasses.has(known, job, folder.resolve("three.csv")));
        sectorglass.image.ReadStateSources other = sectorglass.image.ReadStateSources.NONE.with(sectorglass.image.ReadStateSources.Kind.READ_MAP, "other",
                ReadMap.of(ranges(0, 20), ReadState.READ));
        assertEquals(ReadState.FAILED, JobPasses.applied(other, history).combined(20).state(13));
        assertEquals(other, JobPasses.applied(other, JobPasses.NONE));
    }
}
