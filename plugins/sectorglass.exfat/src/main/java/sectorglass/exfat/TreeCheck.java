package sectorglass.exfat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** Walks all directories and marks the clusters of every owner; what two owners reach is kept for {@link SharedClusters}. */
final class TreeCheck {

    /** An owner that meets a cluster of another. */
    record Join(int owner, long cluster) { }

    private record Waiting(int number, Chain chain, long bytes, boolean root) { }

    private static final int MOST_KEPT = 20_000;
    /** Clusters that may be looked at again after two owners met, in all. */
    private static final long AGAIN = 1L << 26;

    private final VolumeSite site;
    private final Geometry geometry;
    private final Fat fat;
    private final Tally tally;
    private final Progress progress;
    private final Owners owners = new Owners();
    private final ClusterSet owned;
    private final ArrayDeque<Waiting> waiting = new ArrayDeque<>();
    private final List<Join> joins = new ArrayList<>();
    private final Map<Integer, Mark> doubtful = new HashMap<>();
    private final DirectoryCheck directories;
    private SectorRanges missing = SectorRanges.EMPTY;
    private boolean whole = true;
    private Mark broken;
    private long again = AGAIN;

    TreeCheck(VolumeSite site, Fat fat, Upcase upcase, Tally tally, Progress progress) {
        this.site = site;
        this.fat = fat;
        this.geometry = fat.geometry();
        this.tally = tally;
        this.progress = progress;
        long inImage = Math.max(2, geometry.clusterAt(Math.max(0, site.image().bytes() - 1 - site.firstByte())));
        this.owned = new ClusterSet(site.image().bytes() - site.firstByte() >= geometry.clusterByte(geometry.lastCluster() + 1)
                ? geometry.lastCluster() : inImage);
        this.directories = new DirectoryCheck(tally, owners, geometry, upcase, this::set);
    }

    Owners owners() {
        return owners;
    }

    ClusterSet owned() {
        return owned;
    }

    List<Join> joins() {
        return joins;
    }

    /** Whether every directory and every chain could be read to its end. */
    boolean whole() {
        return whole;
    }

    SectorRanges missing() {
        return missing;
    }

    /** A broken verdict that explains clusters without owner, or null. */
    Mark broken() {
        return broken;
    }

    /** The broken verdict about the owner's entries, or null. */
    Mark doubt(int owner) {
        return doubtful.get(owner);
    }

    void broken(Mark mark) {
        broken = broken == null ? mark : broken;
    }

    void run(Root root) {
        owners.folder(-1, geometry.rootCluster(), 0, "");
        follow(owners.special("the root directory", geometry.rootCluster()), geometry.rootCluster(), -1, () -> "the root directory");
        special(root, root.bitmaps(), "the allocation bitmap");
        special(root, root.upcases(), "the up-case table");
        waiting.add(new Waiting(0, root.chain(), root.chain().clusters() * geometry.clusterBytes(), true));
        int done = 0;
        Directory directory = null;
        while (!waiting.isEmpty()) {
            progress.checkCancelled();
            Waiting next = waiting.poll();
            directory = Directory.of(site, geometry, next.chain(), next.bytes(), directory);
            if (!directories.check(next.number(), directory, next.root())) {
                whole = false;
                missing = missing.union(directory.missing());
            }
            progress.at("directories", ++done, 0);
        }
    }

    private void special(Root root, List<Integer> slots, String name) {
        for (int slot : slots) {
            long first = root.directory().u32(slot, 20);
            long bytes = root.directory().u64(slot, 24);
            if (geometry.exists(first) && bytes > 0) {
                follow(owners.special(name, first), first, geometry.clustersOf(bytes), () -> name);
            }
        }
    }

    private void set(int folder, EntrySet set, boolean read, Mark cause) {
        if (!set.directory().isRead(set.slot()) || set.count() < 2 || !set.directory().isRead(set.slot() + 1)) {
            whole = false;
            return;
        }
        long first = set.firstCluster();
        long bytes = set.dataLength();
        broken(cause);
        if (!geometry.exists(first)) {
            return;
        }
        long clusters = bytes < 0 ? geometry.clusters() : geometry.clustersOf(bytes);
        boolean run = set.noFatChain();
        long inVolume = Math.min(clusters, geometry.lastCluster() - first + 1);
        int owner = owners.add(first, run ? inVolume : 0, folder, set.slot(), set.directory().address(set.slot() + 1, 0));
        if (cause != null) {
            doubtful.put(owner, cause);
        }
        if (run) {
            mark(owner, first, inVolume);
        } else {
            follow(owner, first, clusters, () -> owners.path(folder, set.name()));
        }
        if (set.folder()) {
            long most = Math.min(Directory.MOST_BYTES / geometry.clusterBytes() + 1, clusters);
            Chain chain = run ? Chain.contiguous(geometry, first, Math.min(most, inVolume)) : Chain.follow(fat, first, Math.max(1, most));
            if (!joined(owner)) {
                waiting.add(new Waiting(owners.folder(folder, first, run ? inVolume : 0, set.name()), chain,
                        bytes < 0 ? Directory.MOST_BYTES : Math.min(bytes, Directory.MOST_BYTES), false));
            }
        }
    }

    private boolean joined(int owner) {
        return !joins.isEmpty() && joins.get(joins.size() - 1).owner() == owner;
    }

    private void mark(int owner, long first, long clusters) {
        boolean met = false;
        for (long cluster = first; cluster < first + clusters && cluster <= owned.last(); cluster++) {
            if (owned.add(cluster)) {
                if (!met) {
                    join(owner, cluster);
                    met = true;
                }
                if (--again < 0) {
                    return;
                }
            }
        }
    }

    private void join(int owner, long cluster) {
        if (joins.size() < MOST_KEPT) {
            joins.add(new Join(owner, cluster));
        }
    }

    /**
     * Marks the clusters of a chain in the FAT and reports how it breaks.
     *
     * @param wanted clusters that it must have, -1 where no length is known
     */
    private void follow(int owner, long first, long wanted, Supplier<String> name) {
        long clusters = 0;
        long cluster = first;
        long before = 0;
        while (true) {
            if (owned.add(cluster)) {
                if (before != 0 && own(first, cluster, clusters)) {
                    sound(before, Outcome.failed("a link back to cluster " + cluster, wanted < 0 ? "an end mark" : wanted + " clusters"), owner, name);
                } else {
                    join(owner, cluster);
                }
                return;
            }
            clusters++;
            long entry = fat.entry(cluster);
            if (entry == Fat.UNREAD) {
                unread(cluster);
                return;
            }
            if (entry == Fat.END) {
                if (wanted >= 0 && clusters != wanted) {
                    sound(cluster, Outcome.failed(clusters + " clusters", wanted + " clusters"), owner, name);
                }
                return;
            }
            if (!fat.exists(entry)) {
                sound(cluster, Outcome.failed(entry == Fat.BAD ? "a cluster marked bad" : "a link to " + Text.hex(entry, 8),
                        "2 to " + geometry.lastCluster() + ", or an end mark"), owner, name);
                return;
            }
            before = cluster;
            cluster = entry;
        }
    }

    private boolean own(long first, long cluster, long length) {
        long at = first;
        for (long i = 0; i < length; i++) {
            if (at == cluster) {
                return true;
            }
            at = fat.entry(at);
        }
        return false;
    }

    private void sound(long cluster, Outcome outcome, int owner, Supplier<String> name) {
        if (owner == 0) {
            // the root directory has a rule of its own
            return;
        }
        ByteRange where = fat.where(cluster);
        broken(tally.fail("exfat.chain-sound", where, where, outcome.with("path", name.get()).because(doubtful.get(owner))));
    }

    private void unread(long cluster) {
        whole = false;
        SectorRanges gap = fat.missing(cluster);
        missing = missing.union(gap);
        TreeRules.OF_CHAINS.forEach(rule -> tally.unread(rule, gap));
    }
}
