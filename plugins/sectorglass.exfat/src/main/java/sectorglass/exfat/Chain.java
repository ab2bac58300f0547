package sectorglass.exfat;

import java.util.Arrays;

/**
 * Clusters of an allocation in order: a chain as the FAT gives it, up to where it ends or breaks, or a contiguous run. Source:
 * Microsoft exFAT specification, sections 4.1.3 and 6.3.4.2.
 */
final class Chain {

    /** How a chain ends. */
    enum End {
        /** With FFFFFFFF, or at the length of a contiguous run. */
        MARK,
        /** With a link back to one of its own clusters. */
        LOOP,
        /** With a link to a cluster that does not exist, 0 and 1 included, or with a start like that. */
        OUTSIDE,
        /** With a link to a cluster marked bad, or with a bad mark in place of a link. */
        BAD,
        /** At an entry that was not read. */
        UNREAD,
        /** At the limit the caller gave. */
        LIMIT
    }

    private long[] firsts = new long[2];
    private long[] counts = new long[2];
    private int runs;
    private long clusters;
    private End end;
    private long last;
    private long value;

    private Chain() {
    }

    /** No clusters. */
    static Chain none() {
        Chain chain = new Chain();
        chain.end = End.MARK;
        return chain;
    }

    /** A contiguous run; what lies beyond the last cluster is left out and the chain ends {@link End#OUTSIDE}. */
    static Chain contiguous(Geometry geometry, long first, long count) {
        Chain chain = new Chain();
        chain.value = first;
        if (!geometry.exists(first)) {
            chain.end = End.OUTSIDE;
            return chain;
        }
        long there = Math.min(count, geometry.lastCluster() - first + 1);
        chain.firsts[0] = first;
        chain.counts[0] = there;
        chain.runs = there > 0 ? 1 : 0;
        chain.clusters = there;
        chain.last = first + there - 1;
        chain.end = there == count ? End.MARK : End.OUTSIDE;
        return chain;
    }

    /**
     * Follows a chain in the FAT.
     *
     * @param first its first cluster, as claimed
     * @param most clusters after which to stop
     */
    static Chain follow(Fat fat, long first, long most) {
        Chain chain = new Chain();
        chain.value = first;
        if (!fat.exists(first)) {
            chain.end = End.OUTSIDE;
            return chain;
        }
        long cluster = first;
        long mark = first;
        long nextMark = 16;
        while (true) {
            chain.add(cluster);
            long entry = fat.entry(cluster);
            chain.value = entry;
            if (entry == Fat.UNREAD || entry == Fat.END || entry == Fat.BAD || !fat.exists(entry)) {
                chain.end = entry == Fat.UNREAD ? End.UNREAD : entry == Fat.END ? End.MARK : entry == Fat.BAD ? End.BAD : End.OUTSIDE;
                return chain;
            }
            if (entry == mark) {
                chain.cutLoop(fat, entry);
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
    private void cutLoop(Fat fat, long inLoop) {
        long length = 1;
        for (long c = fat.entry(inLoop); c != inLoop; c = fat.entry(c)) {
            length++;
        }
        long slow = firsts[0];
        long fast = slow;
        for (long i = 0; i < length; i++) {
            fast = fat.entry(fast);
        }
        long before = 0;
        while (slow != fast) {
            slow = fat.entry(slow);
            fast = fat.entry(fast);
            before++;
        }
        value = slow;
        end = End.LOOP;
        truncate(before + length);
    }

    private void truncate(long keep) {
        long seen = 0;
        for (int i = 0; i < runs; i++) {
            if (seen + counts[i] >= keep) {
                counts[i] = keep - seen;
                runs = i + 1;
                break;
            }
            seen += counts[i];
        }
        clusters = keep;
        last = runs == 0 ? 0 : firsts[runs - 1] + counts[runs - 1] - 1;
    }

    private void add(long cluster) {
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

    int runs() {
        return runs;
    }

    long first(int run) {
        return firsts[run];
    }

    long count(int run) {
        return counts[run];
    }

    long clusters() {
        return clusters;
    }

    End end() {
        return end;
    }

    /** The last cluster, whose entry breaks the chain where it breaks. */
    long last() {
        return last;
    }

    /** The entry that ended the chain; loop: the cluster met again. */
    long value() {
        return value;
    }
}
