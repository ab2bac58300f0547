package sectorglass.fat;

import java.util.HashMap;
import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/**
 * Reports where chains break, and remembers why: what follows (a length that does not fit, clusters that no owner reaches) is folded
 * under it. A break at an entry in which the FAT copies differ follows from that difference.
 */
final class ChainFaults {

    private final FatTable table;
    private final Tally tally;
    private final FatDifferences differences;
    /** Verdicts about entries whose value is no link. */
    private final Map<Integer, Mark> outside = new HashMap<>();
    private Mark last;
    private Mark first;
    private int count;

    ChainFaults(FatTable table, Tally tally, FatDifferences differences) {
        this.table = table;
        this.tally = tally;
        this.differences = differences;
    }

    /** Notes an entry that the scan of the table found to be out of range. */
    void outOfRange(int cluster, Mark mark) {
        outside.put(cluster, mark);
    }

    void loop(int from, int to, String path) {
        report("fat.chain-no-loop", from, Outcome.failed(to, "another cluster, or an end mark").with("cluster", from).with("path", path));
    }

    void freeOrBad(int cluster, int entry, String path) {
        report("fat.chain-no-free-or-bad", cluster, Outcome.failed(entry == 0 ? "free" : "bad",
                "a link or an end mark").with("cluster", cluster).with("path", path));
    }

    /** A chain ends at an entry that was reported already. */
    void outside(int cluster) {
        broken(outside.get(cluster));
    }

    private void report(String rule, int cluster, Outcome outcome) {
        ByteRange where = table.where(cluster);
        broken(tally.fail(rule, where, where, outcome.because(differences.causeAt(cluster))));
    }

    /** Notes that something broke; the mark may be null. */
    void broken(Mark mark) {
        count++;
        last = mark != null ? mark : last;
        first = first == null ? mark : first;
    }

    /** How many broke. */
    int count() {
        return count;
    }

    Mark last() {
        return last;
    }

    Mark first() {
        return first;
    }
}
