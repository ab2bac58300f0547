package sectorglass.fat;

import java.util.Arrays;

/**
 * A chain of clusters as the FAT gives it, up to where it ends or breaks. A loop ends it at the first cluster that is met again.
 * Kinds of breaks: the faults that fsck.fat (dosfstools 4.2) reports for chains.
 */
final class Chain {

    /** How a chain ends. */
    enum End {
        /** With an end mark. */
        MARK,
        /** With a link back to one of its own clusters. */
        LOOP,
        /** With a link to 1 or to a cluster that does not exist, or with a start like that. */
        OUTSIDE,
        /** With a link to a cluster that is marked free. */
        FREE,
        /** With a link to, or in, a cluster marked bad. */
        BAD,
        /** At an entry that was not read. */
        UNREAD,
        /** At the limit the caller gave. */
        LIMIT
    }

    private int[] firsts = new int[4];
    private int[] counts = new int[4];
    private int runs;
    private long clusters;
    private End end;
    private int last;
    private int value;

    private Chain() {
    }

    /**
     * Follows a chain.
     *
     * @param first its first cluster, as claimed
     * @param most clusters after which to stop
     */
    static Chain follow(FatTable table, long first, long most) {
        Chain chain = new Chain();
        chain.value = (int) first;
        if (!table.exists(first)) {
            chain.end = End.OUTSIDE;
            return chain;
        }
        FatKind kind = table.geometry().kind();
        int cluster = (int) first;
        int mark = cluster;
        long nextMark = 16;
        while (true) {
            int entry = table.entry(cluster);
            if (entry == 0 || entry == kind.bad()) {
                // the cluster itself is free or bad: it is no part of the chain unless it is its start
                chain.end = entry == 0 ? End.FREE : End.BAD;
                chain.value = cluster;
                return chain;
            }
            chain.add(cluster);
            chain.value = entry;
            if (entry == FatTable.UNREAD) {
                chain.end = End.UNREAD;
                return chain;
            }
            if (kind.isEnd(entry)) {
                chain.end = End.MARK;
                return chain;
            }
            if (!table.exists(entry)) {
                chain.end = End.OUTSIDE;
                return chain;
            }
            if (entry == mark) {
                chain.cutLoop(table, entry);
                return chain;
            }
            if (chain.clusters >= most) {
                chain.end = End.LIMIT;
                return chain;
            }
            if (chain.clusters == nextMark) {
                mark = cluster;
                nextMark *= 2;
            }
            cluster = entry;
        }
    }

    /** The loop was noticed late: keeps each cluster once. */
    private void cutLoop(FatTable table, int inLoop) {
        int length = 1;
        for (int c = table.entry(inLoop); c != inLoop; c = table.entry(c)) {
            length++;
        }
        int slow = firsts[0];
        int fast = slow;
        for (int i = 0; i < length; i++) {
            fast = table.entry(fast);
        }
        long before = 0;
        while (slow != fast) {
            slow = table.entry(slow);
            fast = table.entry(fast);
            before++;
        }
        value = slow;
        truncate(before + length);
        end = End.LOOP;
    }

    private void truncate(long keep) {
        long seen = 0;
        for (int i = 0; i < runs; i++) {
            if (seen + counts[i] >= keep) {
                counts[i] = (int) (keep - seen);
                runs = i + 1;
                break;
            }
            seen += counts[i];
        }
        clusters = keep;
        last = runs == 0 ? 0 : firsts[runs - 1] + counts[runs - 1] - 1;
    }

    private void add(int cluster) {
        if (runs > 0 && firsts[runs - 1] + counts[runs - 1] == cluster) {
            counts[runs - 1]++;
        } else {
            if (runs == firsts.length) {
                firsts = Arrays.copyOf(firsts, runs * 2);
                counts = Arrays.copyOf(counts, runs * 2);
            }
            firsts[runs] = cluster;
            counts[runs++] = 1;
        }
        clusters++;
        last = cluster;
    }

    /** A chain that is only assumed: clusters one after the other. */
    static Chain contiguous(int first, int count) {
        Chain chain = new Chain();
        chain.firsts[0] = first;
        chain.counts[0] = count;
        chain.runs = count > 0 ? 1 : 0;
        chain.clusters = count;
        chain.last = first + count - 1;
        chain.end = End.MARK;
        return chain;
    }

    /** Runs of neighbouring clusters. */
    int runs() {
        return runs;
    }

    int first(int run) {
        return firsts[run];
    }

    int count(int run) {
        return counts[run];
    }

    long clusters() {
        return clusters;
    }

    End end() {
        return end;
    }

    /** The last cluster, whose entry breaks the chain where it breaks; 0 for an empty chain. */
    int last() {
        return last;
    }

    /** Loop: the cluster met again. Outside: the value. Free, bad: the cluster that is so. */
    int value() {
        return value;
    }
}
