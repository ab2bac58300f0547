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
    private Mark folder;
    private Mark free;
    private int freeCuts;
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
        Mark mark = report("fat.chain-no-free-or-bad", cluster, Outcome.failed(entry == 0 ? "free" : "bad",
                "a link or an end mark").with("cluster", cluster).with("path", path));
        free = free == null && entry == 0 ? mark : free;
        freeCuts += entry == 0 ? 1 : 0;
    }

    /** A chain ends at an entry that was reported already. */
    void outside(int cluster) {
        broken(outside.get(cluster));
    }

    private Mark report(String rule, int cluster, Outcome outcome) {
        ByteRange where = table.where(cluster);
        Mark mark = tally.fail(rule, where, where, outcome.because(differences.causeAt(cluster)));
        broken(mark);
        return mark;
    }

    /** Notes that a folder, with all below it, is lost by this. */
    void lostFolder(Mark mark) {
        folder = folder == null ? mark : folder;
    }

    /** The first verdict by which a folder is lost, or null. */
    Mark folder() {
        return folder;
    }

    /** The first verdict about a chain that a cluster marked free cuts, or null where such cuts do not make up for so many free ones. */
    Mark free(long tooMany) {
        return Math.abs(tooMany) <= freeCuts ? free : null;
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
