package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** Sets of sectors against a bit set. */
class SectorRangesPropertyTest {
    private static final int SECTORS = 150;

    private static List<SectorRange> runs(long seed, int count) {
        Random random = new Random(seed);
        List<SectorRange> runs = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            runs.add(new SectorRange(random.nextInt(SECTORS - 20), random.nextInt(20)));
        }
        return runs;
    }

    private static BitSet bits(List<SectorRange> runs) {
        BitSet bits = new BitSet();
        runs.forEach(run -> bits.set((int) run.first(), (int) run.end()));
        return bits;
    }

    private static void same(BitSet model, SectorRanges ranges) {
        assertEquals(model.cardinality(), ranges.count());
        SectorRange before = null;
        BitSet listed = new BitSet();
        for (SectorRange run : ranges) {
            assertTrue(run.count() > 0 && (before == null || run.first() > before.end()), "runs are apart and in order");
            listed.set((int) run.first(), (int) run.end());
            before = run;
        }
        assertEquals(model, listed);
        for (int lba = 0; lba <= SECTORS; lba++) {
            assertEquals(model.get(lba), ranges.contains(lba));
        }
    }

    @Property(tries = 500)
    void operationsAreThoseOfSets(@ForAll long seed, @ForAll @IntRange(max = 12) int a, @ForAll @IntRange(max = 12) int b) {
        List<SectorRange> left = runs(seed, a);
        List<SectorRange> right = runs(seed + 1, b);
        SectorRanges l = SectorRanges.of(left);
        SectorRanges r = SectorRanges.of(right);
        same(bits(left), l);
        BitSet union = bits(left);
        union.or(bits(right));
        same(union, l.union(r));
        BitSet both = bits(left);
        both.and(bits(right));
        same(both, l.intersect(r));
        BitSet minus = bits(left);
        minus.andNot(bits(right));
        same(minus, l.minus(r));
        assertEquals(l.union(r), r.union(l));
        assertEquals(l.union(r).hashCode(), r.union(l).hashCode());
    }

    @Property(tries = 500)
    void questionsAboutARunAreAnsweredAsBySets(@ForAll long seed, @ForAll @IntRange(max = 12) int count,
            @ForAll @IntRange(max = SECTORS) int first, @ForAll @IntRange(max = 40) int length) {
        List<SectorRange> runs = runs(seed, count);
        SectorRanges ranges = SectorRanges.of(runs);
        SectorRange asked = new SectorRange(first, length);
        BitSet part = bits(runs).get(first, first + length);
        assertEquals(part.cardinality() == length, ranges.containsAll(asked));
        assertEquals(!part.isEmpty(), ranges.intersects(asked));
        BitSet inside = bits(runs);
        inside.and(bits(List.of(asked)));
        same(inside, ranges.intersect(asked));
    }
}
