package sectorglass.fat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.Supplier;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/**
 * Walks all directories and follows every chain once. A cluster that a second owner reaches is kept, with both, for
 * {@link CrossLinks}; so are lengths that do not fit, since the one may explain the other.
 */
final class TreeCheck {

    /** A chain that meets a cluster of another. */
    record Join(int owner, int cluster) { }

    /** A file whose chain and size do not agree. */
    record Misfit(int owner, long clusters, long bytes, Mark cause) { }

    private static final int MOST_KEPT = 100_000;
    /** Clusters that are followed again to compare lengths after chains met, in all. */
    private static final long AGAIN = 1L << 26;

    private final VolumeSite site;
    private final FatTable table;
    private final Geometry geometry;
    private final Tally tally;
    private final Progress progress;
    private final Owners owners = new Owners();
    private final BitSet visited;
    private final ArrayDeque<Folder> waiting = new ArrayDeque<>();
    private final List<Join> joins = new ArrayList<>();
    private final List<Misfit> misfits = new ArrayList<>();
    private final DirectoryCheck directories;
    private final ChainFaults faults;
    private SectorRanges missing = SectorRanges.EMPTY;
    private boolean whole = true;
    private long again = AGAIN;

    TreeCheck(VolumeSite site, FatTable table, Tally tally, ChainFaults faults, Progress progress) {
        this.site = site;
        this.table = table;
        this.geometry = table.geometry();
        this.tally = tally;
        this.faults = faults;
        this.progress = progress;
        this.visited = new BitSet((int) table.entries());
        this.directories = new DirectoryCheck(tally, owners, geometry.kind(), this::entry);
    }

    Owners owners() {
        return owners;
    }

    /** Clusters that an owner reaches. */
    BitSet visited() {
        return visited;
    }

    List<Join> joins() {
        return joins;
    }

    List<Misfit> misfits() {
        return misfits;
    }

    /** Whether every directory and every chain could be read to its end. */
    boolean whole() {
        return whole;
    }

    /** Sectors whose absence hides directories or the rest of chains. */
    SectorRanges missing() {
        return missing;
    }

    void run() {
        owners.folder(-1, (int) geometry.rootCluster(), "");
        if (geometry.kind() == FatKind.FAT32) {
            int owner = owners.add((int) geometry.rootCluster(), 0, -1, -1, -1);
            Folder root = directory(0, owner, (int) geometry.rootCluster(), 0, true);
            if (root != null) {
                waiting.add(root);
            }
        } else {
            owners.add(0, 0, -1, -1, -1);
            waiting.add(new Folder(0, 0, 0, 0, true, Directory.fixedRoot(site, geometry)));
        }
        int done = 0;
        while (!waiting.isEmpty()) {
            progress.checkCancelled();
            Folder next = waiting.poll();
            if (next.directory() == null) {
                next = new Folder(next.number(), next.owner(), next.cluster(), next.parentCluster(), next.root(), read(next.cluster()));
            }
            if (!directories.check(next)) {
                whole = false;
                note(next.directory().missing());
            }
            progress.at("directories", ++done, 0);
        }
    }

    private Directory read(int cluster) {
        return Directory.of(site, geometry, Chain.follow(table, cluster, Directory.MOST_SLOTS * 32L / geometry.clusterBytes() + 1));
    }

    /** Follows the chain of a directory; gives the folder, its slots to be read later, or null where it cannot be walked. */
    private Folder directory(int number, int owner, int cluster, int parentCluster, boolean root) {
        long clusters = follow(owner, cluster, null);
        if (clusters == 0) {
            return null;
        }
        if (clusters * geometry.clusterBytes() > (long) Directory.MOST_SLOTS * Directory.SLOT) {
            ByteRange where = table.where(cluster);
            tally.fail("fat.directory-size-limit", where, where, Outcome.failed(clusters * geometry.clusterBytes() / 32 + " slots",
                    Directory.MOST_SLOTS + " slots").with("path", owners.path(number)).because(faults.last()));
        }
        return new Folder(number, owner, cluster, parentCluster, root, root ? read(cluster) : null);
    }

    private void entry(Folder folder, int slot, Supplier<String> name, Mark cause) {
        Directory directory = folder.directory();
        boolean isFolder = (directory.u8(slot, 11) & 0x10) != 0;
        long cluster = directory.u16(slot, 26) | (geometry.kind() == FatKind.FAT32 ? (long) directory.u16(slot, 20) << 16 : 0);
        long bytes = directory.u32(slot, 28);
        if (isFolder && bytes != 0) {
            fail("fat.directory-size-zero", folder, slot, 28, 4, Outcome.failed(bytes, 0), name, cause);
        }
        if (cluster == 0) {
            if (isFolder) {
                faults.lostFolder(fail("fat.directory-has-cluster", folder, slot, 26, 2, Outcome.failed("cluster 0", "2 to " + table.lastCluster()), name,
                        cause));
            } else if (bytes != 0) {
                fail("fat.empty-file-no-cluster", folder, slot, 26, 2, Outcome.failed(bytes + " bytes and no cluster",
                        "a first cluster, or size 0"), name, cause);
            }
            return;
        }
        if (!table.exists(cluster)) {
            Mark mark = fail("fat.entry-start-in-range", folder, slot, 26, 2, Outcome.failed(cluster, "2 to " + table.lastCluster()), name,
                    cause);
            faults.broken(mark);
            if (isFolder) {
                faults.lostFolder(mark);
            }
            return;
        }
        if (!isFolder && bytes == 0) {
            Mark mark = fail("fat.empty-file-no-cluster", folder, slot, 26, 2, Outcome.failed("size 0 and first cluster " + cluster,
                    "first cluster 0"), name, cause);
            faults.broken(mark);
        }
        int owner = owners.add((int) cluster, folder.number(), slot, directory.address(slot, 0), isFolder ? -1 : bytes);
        if (isFolder) {
            int number = owners.folder(folder.number(), (int) cluster, name.get());
            int before = faults.count();
            Folder child = directory(number, owner, (int) cluster, folder.root() ? 0 : folder.cluster(), false);
            if (child != null) {
                waiting.add(child);
            }
            if (faults.count() > before) {
                faults.lostFolder(faults.last());
            }
        } else {
            file(owner, (int) cluster, bytes, name, folder, cause);
        }
    }

    private void file(int owner, int cluster, long bytes, Supplier<String> name, Folder folder, Mark cause) {
        int before = joins.size();
        int broken = faults.count();
        long clusters = follow(owner, cluster, () -> owners.path(folder.number(), name.get()));
        if (clusters < 0 || bytes == 0) {
            return;
        }
        long needed = (bytes + geometry.clusterBytes() - 1) / geometry.clusterBytes();
        if (joins.size() > before) {
            Chain whole = Chain.follow(table, cluster, Math.min(again, needed + 1));
            clusters = whole.clusters();
            again -= clusters;
            if (whole.end() == Chain.End.UNREAD || again <= 0) {
                return;
            }
        }
        if (clusters != needed && misfits.size() < MOST_KEPT) {
            misfits.add(new Misfit(owner, clusters, bytes, faults.count() > broken ? faults.last() : cause));
        }
    }

    /**
     * Marks the clusters of a chain.
     *
     * @return how many it has as far as it goes; negative where an unread entry hides its end
     */
    private long follow(int owner, int first, Supplier<String> path) {
        Supplier<String> name = path != null ? path : () -> owners.path(owners.folderOf(owner) == 0 && owners.slot(owner) < 0 ? 0
                : owners.lastFolder());
        FatKind kind = geometry.kind();
        if (!table.exists(first)) {
            return 0;
        }
        long clusters = 0;
        int before = 0;
        int cluster = first;
        while (true) {
            int entry = table.entry(cluster);
            if (visited.get(cluster)) {
                if (before != 0 && own(first, cluster, clusters)) {
                    faults.loop(before, cluster, name.get());
                } else if (joins.size() < MOST_KEPT) {
                    joins.add(new Join(owner, cluster));
                }
                return clusters;
            }
            if (entry == 0 || entry == kind.bad()) {
                faults.freeOrBad(cluster, entry, name.get());
                return clusters;
            }
            visited.set(cluster);
            clusters++;
            if (entry == FatTable.UNREAD) {
                whole = false;
                SectorRanges gap = table.sectors(cluster);
                note(gap);
                TreeRules.OF_CHAINS.forEach(rule -> tally.unread(rule, gap));
                return -clusters;
            }
            if (kind.isEnd(entry)) {
                return clusters;
            }
            if (!table.exists(entry)) {
                faults.outside(cluster);
                return clusters;
            }
            before = cluster;
            cluster = entry;
        }
    }

    /** Whether the chain holds the cluster itself among its first ones. */
    private boolean own(int first, int cluster, long length) {
        int at = first;
        for (long i = 0; i < length; i++) {
            if (at == cluster) {
                return true;
            }
            at = table.entry(at);
        }
        return false;
    }

    private void note(SectorRanges sectors) {
        missing = missing.union(sectors);
    }

    private Mark fail(String rule, Folder folder, int slot, int at, int length, Outcome outcome, Supplier<String> name, Mark cause) {
        Directory directory = folder.directory();
        return tally.fail(rule, directory.where(slot, 0, Directory.SLOT), directory.where(slot, at, length),
                outcome.with("path", owners.path(folder.number(), name.get())).because(cause));
    }
}
