package sectorglass.exfat;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.disk.FileStamp;
import sectorglass.image.Progress;

/** Builds the folder tree of an exFAT volume: sets in use, and deleted ones as far as their entries still stand together. */
final class TreeScan {

    /** Key of the root directory. */
    static final long ROOT = -1;
    private static final int MOST_LOST = 50_000;
    /** Clusters that may be met again where several owners claim them, in all. */
    private static final long AGAIN = 1L << 26;

    private record Waiting(int folder, int id, boolean deleted) { }

    private final Fat fat;
    private final Geometry geometry;
    private final FolderList folders;
    private final CompactTreeBuilder tree = new CompactTreeBuilder();
    private final ArrayDeque<Waiting> waiting = new ArrayDeque<>();
    private final ClusterSet walked;
    private final ClusterSet owned;
    private final List<Chain> lost = new ArrayList<>();
    private long again = AGAIN;

    TreeScan(Fat fat, FolderList folders, long lastCluster) {
        this.owned = new ClusterSet(lastCluster);
        this.fat = fat;
        this.geometry = fat.geometry();
        this.folders = folders;
        this.walked = new ClusterSet(lastCluster);
    }

    /** Key of clusters without an owner. */
    static int lostIndex(long key) {
        return (int) (-2 - key);
    }

    /** Clusters without an owner, by {@link #lostIndex}. */
    List<Chain> lost() {
        return lost;
    }

    /**
     * Builds it.
     *
     * @param bitmap tells which clusters are used; null where it cannot be located
     * @param tables clusters of what is no file: bitmap and up-case table
     */
    CompactTree build(Bitmap bitmap, List<Chain> tables, CompactTree.Details details, Progress progress) {
        tables.forEach(this::own);
        int root = tree.add("", true, false, 0, null, -1, ROOT);
        tree.root(root);
        if (fat.exists(geometry.rootCluster())) {
            Chain chain = Chain.follow(fat, geometry.rootCluster(), Directory.MOST_BYTES / geometry.clusterBytes() + 1);
            if (chain.end() == Chain.End.UNREAD) {
                tree.unread(fat.missing(chain.last()));
                tree.remark("The FAT entry after cluster " + chain.last() + " of the root directory was not read; more of it may follow.");
            }
            walked.add(geometry.rootCluster());
            own(chain);
            waiting.add(new Waiting(folders.add(geometry.rootCluster(), 0, Math.max(1, chain.clusters()) * geometry.clusterBytes()), root,
                    false));
        } else {
            tree.remark("The root directory cannot be located.");
        }
        int done = 0;
        while (!waiting.isEmpty()) {
            progress.checkCancelled();
            folder(waiting.poll());
            progress.at("directories", ++done, 0);
        }
        lost(new LostClusters(fat, bitmap, owned), progress);
        return tree.build(details);
    }

    private void own(Chain chain) {
        for (int run = 0; run < chain.runs(); run++) {
            long end = Math.min(chain.first(run) + chain.count(run), owned.last() + 1);
            for (long cluster = chain.first(run); cluster < end && again > 0; cluster++) {
                again -= owned.add(cluster) ? 1 : 0;
            }
        }
    }

    /** Clusters that are used and have no owner: folders first, since they own others. */
    private void lost(LostClusters clusters, Progress progress) {
        for (boolean files : new boolean[] {false, true}) {
            clusters.findLinks();
            for (long at = clusters.next(2); at > 0 && lost.size() < MOST_LOST; at = clusters.next(at + 1)) {
                progress.checkCancelled();
                if (!clusters.isLinked(at) && (files || startsFolder(at))) {
                    lost(clusters.take(at, files ? any -> true : this::continuesFolder), !files);
                }
            }
        }
        // rings, which nothing outside links to
        for (long at = clusters.next(2); at > 0 && lost.size() < MOST_LOST; at = clusters.next(at + 1)) {
            lost(clusters.take(at, any -> true), false);
        }
        if (lost.size() >= MOST_LOST) {
            tree.remark("More than " + MOST_LOST + " runs of clusters belong to no entry; only the first ones are listed.");
        }
    }

    private void lost(Chain chain, boolean folder) {
        if (folder && walked.add(chain.first(0))) {
            // a deleted entry leads to it: listed there
            return;
        }
        lost.add(chain);
        long bytes = chain.clusters() * geometry.clusterBytes();
        int id = tree.add("cluster " + chain.first(0), folder, false, folder ? 0 : bytes, null, -1, -1L - lost.size());
        if (folder) {
            waiting.add(new Waiting(folders.add(chain.first(0), chain.clusters(), Math.min(bytes, Directory.MOST_BYTES)), id, false));
            while (!waiting.isEmpty()) {
                folder(waiting.poll());
            }
        }
    }

    /** Whether the cluster may be a later one of a folder: it begins with an entry of a file, in use or deleted. */
    private boolean continuesFolder(long cluster) {
        Directory head = folders.alone(cluster);
        int type = head.slots() > 0 && head.isRead(0) ? head.u8(0, 0) & 0x7F : 0;
        return type == 0x05 || type == 0x40 || type == 0x41;
    }

    /** Whether the cluster begins with a whole set in use whose checksum holds: nothing but a folder does. */
    private boolean startsFolder(long cluster) {
        Directory head = folders.alone(cluster);
        EntrySet set = new EntrySet();
        return head.slots() > 2 && head.isRead(0, 2) && head.u8(0, 0) == 0x85 && take(head, 0, set) && set.count() == 1 + set.secondaries()
                && head.isRead(0, set.count()) && set.checksum(false) == set.storedChecksum();
    }

    private void folder(Waiting next) {
        Directory directory = folders.directory(next.folder());
        if (!directory.allRead()) {
            tree.unread(directory.missing());
        }
        EntrySet set = new EntrySet();
        for (int slot = 0; slot < directory.slots(); slot++) {
            int type = directory.isRead(slot) ? directory.u8(slot, 0) : -1;
            if (type == 0) {
                break;
            }
            if ((type == 0x85 || type == 0x05) && take(directory, slot, set)) {
                entry(next, set, type == 0x05);
                slot += set.count() - 1;
            }
        }
    }

    /** Takes the set at a slot: as many entries as belong to it by their types. @return whether it has a stream extension */
    static boolean take(Directory directory, int slot, EntrySet set) {
        int room = Math.min(1 + directory.u8(slot, 1), directory.slots() - slot);
        int inUse = directory.u8(slot, 0) & 0x80;
        int count = 1;
        while (count < room && (!directory.isRead(slot + count) || (directory.u8(slot + count, 0) & 0xC0) == (0x40 | inUse))) {
            count++;
        }
        set.at(directory, slot, count);
        return count >= 2 && directory.isRead(slot + 1) && (directory.u8(slot + 1, 0) & 0x7F) == 0x40;
    }

    private void entry(Waiting in, EntrySet set, boolean erased) {
        boolean deleted = erased || in.deleted();
        boolean isFolder = set.folder();
        long bytes = set.dataLength();
        String name = set.name();
        int id = tree.add(name.isEmpty() ? "cluster " + set.firstCluster() : name, isFolder, deleted, isFolder ? 0 : Math.max(-1, bytes),
                stamp(set.directory(), set.slot(), 12, 21, 23), -1, FolderList.key(in.folder(), set.slot()));
        tree.parent(id, in.id());
        long first = set.firstCluster();
        if (!deleted && bytes > 0 && fat.exists(first)) {
            own(set.noFatChain() ? Chain.contiguous(geometry, first, geometry.clustersOf(bytes))
                    : Chain.follow(fat, first, Math.min(geometry.clustersOf(bytes), Math.max(1, again))));
        }
        boolean sound = !erased || set.count() == 1 + set.secondaries() && set.checksum(true) == set.storedChecksum();
        if (isFolder && sound && bytes > 0 && fat.exists(first) && !walked.add(first)) {
            waiting.add(new Waiting(folders.add(first, set.noFatChain() ? geometry.clustersOf(bytes) : 0,
                    Math.min(bytes, Directory.MOST_BYTES)), id, deleted));
        }
    }

    /** A time of a file entry: local, with its zone where that is stored (section 7.4.10). @param tenMsAt -1 for none */
    static FileStamp stamp(Directory directory, int slot, int at, int tenMsAt, int zoneAt) {
        int time = directory.u16(slot, at);
        int date = directory.u16(slot, at + 2);
        try {
            LocalDateTime local = LocalDateTime.of(1980 + (date >> 9), date >> 5 & 15, date & 31, time >> 11, time >> 5 & 63, (time & 31) * 2);
            int tenMs = tenMsAt < 0 ? 0 : directory.u8(slot, tenMsAt);
            local = tenMs <= 199 ? local.plusNanos(tenMs * 10_000_000L) : local;
            int zone = directory.u8(slot, zoneAt);
            int quarters = (zone & 0x40) != 0 ? (zone & 0x7F) - 128 : zone & 0x7F;
            boolean known = (zone & 0x80) != 0 && Math.abs(quarters * 15) <= 18 * 60;
            return known ? new FileStamp(local, ZoneOffset.ofTotalSeconds(quarters * 15 * 60)) : FileStamp.local(local);
        } catch (DateTimeException e) {
            return null;
        }
    }
}
