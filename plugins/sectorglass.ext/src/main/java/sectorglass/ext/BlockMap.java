package sectorglass.ext;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;

/** Where the blocks of a file stand, and what was wrong with the map. */
final class BlockMap {

    /**
     * A run of blocks.
     *
     * @param logical first block of the file
     * @param physical first block on the volume
     * @param count blocks
     * @param unwritten whether it is allocated but reads as zero
     */
    record Run(long logical, long physical, long count, boolean unwritten) { }

    /**
     * Something that breaks a rule.
     *
     * @param rule id
     * @param where the bytes
     * @param structure the node or inode
     * @param stored value found
     * @param computed value asked for
     */
    record Fault(String rule, ByteRange where, ByteRange structure, Object stored, Object computed) { }

    /** By file block. */
    final List<Run> runs = new ArrayList<>(1);
    /** Blocks of the tree or of indirect maps. */
    final List<Long> nodes = new ArrayList<>(0);
    final List<Fault> faults = new ArrayList<>(0);
    /** Sectors of nodes that were not read. */
    SectorRanges unread = SectorRanges.EMPTY;
    /** Nodes that were looked at, faulty ones included. */
    int nodesSeen;

    /** Blocks in all runs. */
    long mapped() {
        long sum = 0;
        for (Run run : runs) {
            sum += run.count;
        }
        return sum;
    }

    /** Whether nothing was unread and nothing wrong. */
    boolean whole() {
        return unread.isEmpty() && faults.isEmpty();
    }

    void add(long logical, long physical, long count, boolean unwritten) {
        if (!runs.isEmpty()) {
            Run last = runs.get(runs.size() - 1);
            if (last.logical + last.count == logical && last.physical + last.count == physical && last.unwritten == unwritten) {
                runs.set(runs.size() - 1, new Run(last.logical, last.physical, last.count + count, unwritten));
                return;
            }
        }
        runs.add(new Run(logical, physical, count, unwritten));
    }
}
