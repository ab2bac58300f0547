package sectorglass.exfat;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.function.LongPredicate;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** Finds the owners of given clusters by going through all owners again, and reports those that two of them claim. */
final class SharedClusters {

    /** Clusters gone through again at most. */
    private static final long MOST_STEPS = 1L << 27;

    private final VolumeSite site;
    private final Fat fat;
    private final Geometry geometry;
    private final Owners owners;
    private final TreeCheck tree;
    private final Tally tally;

    SharedClusters(VolumeSite site, Fat fat, TreeCheck tree, Tally tally) {
        this.site = site;
        this.fat = fat;
        this.geometry = fat.geometry();
        this.owners = tree.owners();
        this.tree = tree;
        this.tally = tally;
    }

    void run() {
        if (tree.joins().isEmpty()) {
            return;
        }
        Map<Integer, Long> stops = new HashMap<>();
        Set<Long> wanted = new HashSet<>();
        tree.joins().forEach(join -> {
            stops.put(join.owner(), join.cluster());
            wanted.add(join.cluster());
        });
        Map<Long, Integer> firsts = ownersOf(wanted::contains, stops);
        int reported = 0;
        for (TreeCheck.Join join : tree.joins()) {
            boolean named = reported++ < Tally.MOST;
            int first = firsts.getOrDefault(join.cluster(), 0);
            // a start in the middle of another file is more likely wrong than a way through the middle
            boolean firstOdd = owners.where(first) >= 0 && owners.start(first) == join.cluster()
                    && owners.start(join.owner()) != join.cluster();
            int blamed = firstOdd ? first : join.owner();
            int other = firstOdd ? join.owner() : first;
            ByteRange where = owners.where(blamed) < 0 ? fat.where(join.cluster())
                    : new ByteRange(owners.where(blamed) + EntrySet.FIRST_CLUSTER, 4);
            ByteRange entry = owners.where(blamed) < 0 ? where : new ByteRange(owners.where(blamed), Directory.SLOT);
            Mark mark = tally.fail("exfat.no-shared-clusters", entry, where, Outcome.failed("cluster " + join.cluster()
                    + (named ? " of " + name(other) : ""), "clusters of its own").with("cluster", join.cluster())
                    .with("path", named ? name(blamed) : null).with("other", named ? name(other) : null)
                    .because(tree.doubt(blamed)));
            tree.broken(mark);
        }
    }

    /** The first owner of each cluster that is asked for; an owner is followed only up to its stop. */
    Map<Long, Integer> ownersOf(LongPredicate wanted, Map<Integer, Long> stops) {
        Map<Long, Integer> found = new HashMap<>();
        long steps = 0;
        for (int owner = 0; owner < owners.count() && steps < MOST_STEPS; owner++) {
            long run = owners.run(owner);
            long stop = stops.getOrDefault(owner, -1L);
            long cluster = owners.start(owner);
            long most = run > 0 ? run : geometry.clusters();
            for (long i = 0; i < most && steps < MOST_STEPS && cluster != stop && geometry.exists(cluster); i++, steps++) {
                if (wanted.test(cluster)) {
                    found.putIfAbsent(cluster, owner);
                }
                cluster = run > 0 ? cluster + 1 : fat.entry(cluster);
            }
        }
        return found;
    }

    /** The path of an owner; its name is read again. */
    String name(int owner) {
        if (owners.special(owner) != null) {
            return owners.special(owner);
        }
        int folder = owners.folderOf(owner);
        long[] place = owners.place(folder);
        Chain chain = place[1] > 0 ? Chain.contiguous(geometry, place[0], place[1])
                : Chain.follow(fat, place[0], Directory.MOST_BYTES / geometry.clusterBytes() + 1);
        Directory directory = Directory.of(site, geometry, chain, (owners.slot(owner) + 20L) * Directory.SLOT);
        EntrySet set = new EntrySet();
        set.at(directory, owners.slot(owner), Math.min(1 + directory.u8(owners.slot(owner), 1), directory.slots() - owners.slot(owner)));
        return owners.path(folder, set.name());
    }
}
