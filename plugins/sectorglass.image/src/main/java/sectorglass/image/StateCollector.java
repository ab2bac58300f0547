package sectorglass.image;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;

/**
 * Makes a {@link ReadMap} of runs in any order. Ascending runs cost nothing extra; others are gathered, sorted and merged a million at
 * a time. Overlaps are counted, and the first one is remembered with its lines.
 */
final class StateCollector {
    private static final int GATHERED = 1 << 20;

    /** Which of two overlapping runs counts. */
    enum Rule {
        /** The one that promises less: failed before skipped before unread before read. */
        CAREFUL,
        /** The one that came later, as in a log. */
        LATER
    }

    /** A run that did not come in order; {@code line} says where it stood. */
    private record Late(long first, long end, byte code, short head, long line) { }

    private final Rule rule;
    private ReadMap below = ReadMap.EMPTY;
    private ReadMap.Builder ascending = new ReadMap.Builder();
    private List<Late> late = new ArrayList<>();
    private long overlapLine;
    private long overlapLba = -1;
    private long overlapped;
    private boolean any;

    StateCollector(Rule rule) {
        this.rule = rule;
    }

    /** Adds a run; {@code first + count} does not overflow. */
    void add(long first, long count, ReadState state, int head, long line) {
        if (count == 0) {
            return;
        }
        any = true;
        long end = first + count;
        if (late.isEmpty() && first >= ascending.end()) {
            ascending.append(first, end, (byte) state.ordinal(), head);
            return;
        }
        late.add(new Late(first, end, (byte) state.ordinal(), (short) head, line));
        if (late.size() == GATHERED) {
            flush();
        }
    }

    /** LBA of the first overlap, or -1. */
    long overlapLba() {
        return overlapLba;
    }

    /** Line of the first overlap. */
    long overlapLine() {
        return overlapLine;
    }

    /** Number of sectors named more than once, at least; a sector named n times counts n - 1 times. */
    long overlapped() {
        return overlapped;
    }

    boolean isEmpty() {
        return !any;
    }

    /** The map; the collector must not be used any more. */
    ReadMap build() {
        flush();
        return ascending.build();
    }

    private void flush() {
        if (late.isEmpty()) {
            return;
        }
        ReadMap earlier = ascending.build();
        ReadMap painted = paint();
        noteOverlap(earlier, painted);
        late = new ArrayList<>();
        ReadMap all = painted.combine(earlier, this::choose);
        ascending = new ReadMap.Builder();
        all.visit((first, end, state, head) -> ascending.append(first, end, (byte) state.ordinal(), head));
    }

    private byte choose(byte mine, byte other) {
        if (mine == ReadMap.SILENT || other == ReadMap.SILENT) {
            return mine == ReadMap.SILENT ? other : mine;
        }
        return rule == Rule.LATER ? mine : careful(mine, other);
    }

    /** The code that promises less; a silent one yields. */
    static byte careful(byte mine, byte other) {
        if (mine == ReadMap.SILENT || other == ReadMap.SILENT) {
            return mine == ReadMap.SILENT ? other : mine;
        }
        return care(mine) >= care(other) ? mine : other;
    }

    /** The higher, the less a state promises. */
    private static int care(byte code) {
        return switch (ReadState.values()[code]) {
            case FAILED -> 3;
            case SKIPPED -> 2;
            case UNREAD -> 1;
            case READ -> 0;
        };
    }

    private void noteOverlap(ReadMap earlier, ReadMap painted) {
        SectorRanges both = earlier.mentioned().intersect(painted.mentioned());
        overlapped += both.count();
        if (!both.isEmpty()) {
            late.stream().filter(run -> both.intersects(new SectorRange(run.first, run.end - run.first)))
                    .min(Comparator.comparingLong(Late::line))
                    .ifPresent(run -> overlap(both.intersect(new SectorRange(run.first, run.end - run.first)).run(0).first(), run.line));
        }
    }

    private void overlap(long lba, long line) {
        if (overlapLba < 0 || line < overlapLine) {
            overlapLba = lba;
            overlapLine = line;
        }
    }

    /** The gathered runs as a map, by a sweep over their starts with the strongest run on top. */
    private ReadMap paint() {
        late.sort(Comparator.comparingLong(Late::first).thenComparingLong(Late::line));
        Comparator<Late> latest = Comparator.comparingLong(Late::line).reversed();
        PriorityQueue<Late> active = new PriorityQueue<>(rule == Rule.LATER ? latest
                : Comparator.<Late>comparingInt(l -> -care(l.code)).thenComparing(latest));
        ReadMap.Builder builder = new ReadMap.Builder();
        long at = 0;
        long covered = 0;
        for (Late run : late) {
            at = drain(active, at, run.first, builder);
            if (run.first < covered) {
                overlapped += Math.min(covered, run.end) - run.first;
                overlap(run.first, run.line);
            }
            covered = Math.max(covered, run.end);
            at = Math.max(at, run.first);
            active.add(run);
        }
        drain(active, at, Long.MAX_VALUE, builder);
        return builder.build();
    }

    private static long drain(PriorityQueue<Late> active, long from, long until, ReadMap.Builder builder) {
        long at = from;
        while (!active.isEmpty() && at < until) {
            Late top = active.peek();
            if (top.end <= at) {
                active.poll();
            } else {
                long end = Math.min(top.end, until);
                builder.append(at, end, top.code, top.head);
                at = end;
            }
        }
        return at;
    }
}
