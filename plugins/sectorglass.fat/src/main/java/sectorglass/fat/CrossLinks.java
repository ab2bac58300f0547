package sectorglass.fat;

import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/**
 * Finds both owners of clusters that two chains reach, and blames the one whose size does not fit its chain. Then reports the lengths that
 * nothing else explains.
 */
final class CrossLinks {

    private final VolumeSite site;
    private final FatTable table;
    private final TreeCheck tree;
    private final Owners owners;
    private final Tally tally;
    private final ChainFaults faults;
    private final Map<Integer, Mark> blamed = new HashMap<>();
    private int reported;
    private int measured;

    CrossLinks(VolumeSite site, FatTable table, TreeCheck tree, Tally tally, ChainFaults faults) {
        this.site = site;
        this.table = table;
        this.tree = tree;
        this.owners = tree.owners();
        this.tally = tally;
        this.faults = faults;
    }

    void run() {
        Map<Integer, TreeCheck.Misfit> misfits = new HashMap<>();
        tree.misfits().forEach(m -> misfits.put(m.owner(), m));
        if (!tree.joins().isEmpty()) {
            joins(misfits);
        }
        for (TreeCheck.Misfit misfit : tree.misfits()) {
            length(misfit);
        }
    }

    private void joins(Map<Integer, TreeCheck.Misfit> misfits) {
        BitSet joined = new BitSet();
        Set<Integer> later = new HashSet<>();
        tree.joins().forEach(join -> {
            joined.set(join.cluster());
            later.add(join.owner());
        });
        Map<Integer, Integer> firstOwner = firstOwners(joined, later, tree.joins());
        for (TreeCheck.Join join : tree.joins()) {
            boolean named = reported++ < Tally.MOST;
            int other = firstOwner.getOrDefault(join.cluster(), 0);
            boolean fits = misfits.containsKey(other) == misfits.containsKey(join.owner());
            // where the sizes do not tell: a start in the middle of another file is more likely wrong than a way through the middle
            boolean startsInside = owners.start(other) == join.cluster() && owners.start(join.owner()) != join.cluster();
            boolean otherOdd = owners.where(other) >= 0 && (fits ? startsInside : misfits.containsKey(other));
            int blame = otherOdd ? other : join.owner();
            int sound = otherOdd ? join.owner() : other;
            ByteRange where = owners.where(blame) < 0 ? table.where(join.cluster()) : new ByteRange(owners.where(blame) + 26, 2);
            ByteRange slot = owners.where(blame) < 0 ? where : new ByteRange(owners.where(blame), Directory.SLOT);
            Mark mark = tally.fail("fat.chain-no-cross-link", slot, where, Outcome.failed("cluster " + join.cluster()
                    + (named ? " of " + name(sound) : ""), "clusters of its own").with("path", named ? name(blame) : null)
                    .with("other", named ? name(sound) : null).with("cluster", join.cluster()));
            faults.broken(mark);
            blamed.putIfAbsent(blame, mark);
            blamed.putIfAbsent(sound, mark);
        }
    }

    /** Follows the chains again, up to where each was marked, and notes the first owner of each joined cluster. */
    private Map<Integer, Integer> firstOwners(BitSet joined, Set<Integer> later, java.util.List<TreeCheck.Join> joins) {
        Map<Integer, Integer> stops = new HashMap<>();
        joins.forEach(join -> stops.put(join.owner(), join.cluster()));
        Map<Integer, Integer> found = new HashMap<>();
        int wanted = joined.cardinality();
        BitSet seen = new BitSet();
        for (int owner = 0; owner < owners.count() && found.size() < wanted; owner++) {
            int cluster = owners.start(owner);
            int stop = later.contains(owner) ? stops.get(owner) : -1;
            while (table.exists(cluster) && cluster != stop && !seen.get(cluster)) {
                seen.set(cluster);
                if (joined.get(cluster)) {
                    found.putIfAbsent(cluster, owner);
                }
                cluster = table.entry(cluster);
            }
        }
        return found;
    }

    private void length(TreeCheck.Misfit misfit) {
        Mark cause = blamed.getOrDefault(misfit.owner(), misfit.cause());
        ByteRange slot = new ByteRange(owners.where(misfit.owner()), Directory.SLOT);
        int size = table.geometry().clusterBytes();
        Mark mark = tally.fail("fat.chain-length-matches-size", slot, new ByteRange(slot.start() + 28, 4), Outcome.failed(
                misfit.bytes() + " bytes", misfit.clusters() + " clusters of " + size + " bytes").with("path", measured++ < Tally.MOST
                        ? name(misfit.owner()) : null).because(cause));
        faults.broken(cause == null ? mark : null);
    }

    /** The path of an owner; its name is read again. */
    private String name(int owner) {
        int folder = owners.folderOf(owner);
        int slot = owners.slot(owner);
        if (slot < 0) {
            return "/";
        }
        Geometry geometry = table.geometry();
        int cluster = owners.folderCluster(folder);
        Directory directory = cluster == 0 ? Directory.fixedRoot(site, geometry)
                : Directory.of(site, geometry, Chain.follow(table, cluster, Directory.MOST_SLOTS * 32L / geometry.clusterBytes() + 1));
        return owners.path(folder, Names.at(directory, slot));
    }
}
