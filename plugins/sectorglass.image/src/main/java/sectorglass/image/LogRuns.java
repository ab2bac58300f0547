package sectorglass.image;

/**
 * Turns the runs of a log into runs of sectors. A line that goes on where the one before it ended, in the same state, is joined to it first,
 * so that a sector read in two steps counts as read. Of what remains, only sectors named whole are read; sectors named in part have any
 * other state.
 */
final class LogRuns {
    private final StateCollector collector;
    private final int unit;
    private long start;
    private long end;
    private ReadState state;
    private long line;

    /** @param unit units per sector: the sector size for bytes, 1 for sectors */
    LogRuns(StateCollector collector, int unit) {
        this.collector = collector;
        this.unit = unit;
    }

    void add(long first, long length, ReadState its, long number) {
        if (length == 0) {
            return;
        }
        if (state == its && first == end) {
            end += length;
            return;
        }
        flush();
        start = first;
        end = first + length;
        state = its;
        line = number;
    }

    /** Hands over the last run. */
    void flush() {
        if (state == null) {
            return;
        }
        boolean whole = state == ReadState.READ;
        long first = whole && start % unit != 0 ? start / unit + 1 : start / unit;
        long last = whole || end % unit == 0 ? end / unit : end / unit + 1;
        if (last > first) {
            collector.add(first, last - first, state, ReadMap.NO_HEAD, line);
        }
        state = null;
    }
}
