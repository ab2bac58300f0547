package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** Read maps against one state per sector in an array. */
class ReadMapPropertyTest {
    private static final int SECTORS = 200;

    private record Entry(int first, int count, ReadState state, int head) { }

    private static List<Entry> entries(long seed, int count) {
        Random random = new Random(seed);
        List<Entry> entries = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            int first = random.nextInt(SECTORS - 30);
            entries.add(new Entry(first, random.nextInt(30), ReadState.values()[random.nextInt(4)], random.nextInt(3) - 1));
        }
        return entries;
    }

    private static ReadMap collect(List<Entry> entries, StateCollector.Rule rule) {
        StateCollector collector = new StateCollector(rule);
        long line = 1;
        for (Entry e : entries) {
            collector.add(e.first, e.count, e.state, e.head, line++);
        }
        return collector.build();
    }

    private static int care(int code) {
        return code < 0 ? -1 : List.of(ReadState.READ, ReadState.UNREAD, ReadState.SKIPPED, ReadState.FAILED)
                .indexOf(ReadState.values()[code]);
    }

    private static int[] model(List<Entry> entries, StateCollector.Rule rule) {
        int[] codes = new int[SECTORS];
        Arrays.fill(codes, -1);
        for (Entry e : entries) {
            for (int lba = e.first; lba < e.first + e.count; lba++) {
                int code = e.state.ordinal();
                codes[lba] = rule == StateCollector.Rule.LATER || care(code) > care(codes[lba]) ? code : codes[lba];
            }
        }
        return codes;
    }

    @Property(tries = 300)
    void runsInAnyOrderGiveTheStatesOfTheirRule(@ForAll long seed, @ForAll @IntRange(max = 30) int count) {
        List<Entry> entries = entries(seed, count);
        for (StateCollector.Rule rule : StateCollector.Rule.values()) {
            ReadMap map = collect(entries, rule);
            int[] model = model(entries, rule);
            byte[] filled = new byte[SECTORS];
            map.fill(0, filled);
            for (int lba = 0; lba < SECTORS; lba++) {
                ReadState expected = model[lba] < 0 ? ReadState.UNREAD : ReadState.values()[model[lba]];
                assertEquals(expected, map.state(lba), rule + " at " + lba);
                assertEquals(model[lba] >= 0, map.mentions(lba));
                assertEquals(expected.ordinal(), filled[lba]);
            }
            for (ReadState state : ReadState.values()) {
                SectorRanges in = map.inState(state, new SectorRange(20, 100));
                for (int lba = 0; lba < SECTORS; lba++) {
                    assertEquals(lba >= 20 && lba < 120 && map.state(lba) == state, in.contains(lba));
                }
                int wanted = state.ordinal();
                assertEquals(Arrays.stream(model).filter(code -> code == wanted).count(), map.count(state));
            }
        }
    }

    @Property(tries = 300)
    void aMapOverAnotherSpeaksWhereItMentions(@ForAll long seed, @ForAll @IntRange(max = 15) int count) {
        ReadMap a = collect(entries(seed, count), StateCollector.Rule.LATER);
        ReadMap b = collect(entries(seed + 1, count), StateCollector.Rule.LATER);
        ReadMap both = a.over(b);
        for (int lba = 0; lba < SECTORS; lba++) {
            assertEquals(a.mentions(lba) ? a.state(lba) : b.state(lba), both.state(lba));
            assertEquals(a.mentions(lba) || b.mentions(lba), both.mentions(lba));
        }
    }

    @Property(tries = 20)
    void mapsOfManyBlocksKeepEveryRun(@ForAll long seed) {
        Random random = new Random(seed);
        ReadMap.Builder builder = new ReadMap.Builder();
        long[] firsts = new long[200_000];
        long at = random.nextInt(2);
        for (int i = 0; i < firsts.length; i++) {
            firsts[i] = at;
            builder.add(at, 1, ReadState.values()[i % 4], i % 70_000 == 5 ? i % 9 : ReadMap.NO_HEAD);
            at += 1 + i % 3;
        }
        ReadMap map = builder.build();
        for (int i = 0; i < firsts.length; i++) {
            assertEquals(ReadState.values()[i % 4], map.state(firsts[i]));
            assertEquals(i % 70_000 == 5 ? i % 9 : ReadMap.NO_HEAD, map.head(firsts[i]));
        }
    }
}
