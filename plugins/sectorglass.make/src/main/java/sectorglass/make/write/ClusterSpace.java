package sectorglass.make.write;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Hands out clusters in rising order and remembers the taken ones as runs. A file in several pieces leaves gaps of one or more
 * clusters, which stay free. Memory follows the number of gaps.
 */
public final class ClusterSpace {
    private final long end;
    private final TreeMap<Long, Long> taken = new TreeMap<>();
    private long next;

    /** Clusters from {@code first} to {@code end - 1}, all free. */
    public ClusterSpace(long first, long end) {
        this.next = first;
        this.end = end;
    }

    /** Takes a place of the caller's choice, which must be free. */
    public ClusterRun reserve(long first, long count) {
        if (count < 1 || first < 0 || first + count > end || overlaps(first, count)) {
            throw new IllegalArgumentException("clusters " + first + " + " + count + " are not free below " + end);
        }
        mark(first, count);
        return new ClusterRun(first, count);
    }

    /** Takes clusters in one run. */
    public ClusterRun take(long count) {
        long first = next;
        for (Map.Entry<Long, Long> run = taken.floorEntry(first + count - 1); run != null && run.getValue() > first;
                run = taken.floorEntry(first + count - 1)) {
            first = run.getValue();
        }
        if (count < 1 || count > end - first) {
            throw new IllegalArgumentException("the volume is too small: " + count + " clusters wanted, " + (end - first) + " left");
        }
        mark(first, count);
        next = first + count;
        return new ClusterRun(first, count);
    }

    /** Takes clusters in that many runs, or in one per cluster where there are fewer clusters. */
    public List<ClusterRun> take(long count, int pieces, Gaps gaps) {
        if (count == 0) {
            return List.of();
        }
        List<ClusterRun> runs = new ArrayList<>();
        long left = count;
        for (long piece = Math.min(pieces, count); piece > 0; piece--) {
            long size = piece == 1 ? left : Math.max(1, left / piece);
            runs.add(take(size));
            left -= size;
            if (piece > 1) {
                next += gaps.next();
            }
        }
        return runs;
    }

    /** Gives clusters back; they are not handed out again. */
    public void release(ClusterRun run) {
        Map.Entry<Long, Long> holder = taken.floorEntry(run.first());
        long from = holder.getKey();
        long to = holder.getValue();
        taken.remove(from);
        if (from < run.first()) {
            taken.put(from, run.first());
        }
        if (to > run.end()) {
            taken.put(run.end(), to);
        }
    }

    /** Number of taken clusters. */
    public long used() {
        return taken.entrySet().stream().mapToLong(e -> e.getValue() - e.getKey()).sum();
    }

    /** The cluster that would be handed out next; the end where none is left. */
    public long next() {
        return Math.min(next, end);
    }

    /** The taken clusters. */
    public List<ClusterRun> runs() {
        return taken.entrySet().stream().map(e -> new ClusterRun(e.getKey(), e.getValue() - e.getKey())).toList();
    }

    private boolean overlaps(long first, long count) {
        Map.Entry<Long, Long> before = taken.lowerEntry(first + count);
        return before != null && before.getValue() > first;
    }

    private void mark(long first, long count) {
        long from = first;
        long to = first + count;
        Map.Entry<Long, Long> before = taken.floorEntry(first);
        if (before != null && before.getValue() == first) {
            from = before.getKey();
        }
        Long after = taken.remove(to);
        if (after != null) {
            to = after;
        }
        taken.put(from, to);
    }

    /** The sizes of the gaps between pieces. */
    @FunctionalInterface
    public interface Gaps {

        /** Clusters to leave free, at least 1. */
        int next();
    }
}
