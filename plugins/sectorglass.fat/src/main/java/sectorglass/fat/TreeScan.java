package sectorglass.fat;

import java.util.ArrayDeque;
import java.util.BitSet;

import sectorglass.disk.CodePage;
import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.disk.FileStamp;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;

/**
 * Builds the folder tree: live entries, deleted ones, and under <em>Without a folder</em> the chains that no entry reaches. Every chain is
 * followed once, to know what is reached and what two entries claim.
 */
final class TreeScan {

    /** Key of the root directory. */
    static final long ROOT = -1;
    private static final int MOST_LOST = 50_000;

    private record Waiting(int folder, int id, boolean deleted) { }

    private final VolumeSite site;
    private final FatTable table;
    private final Geometry geometry;
    private final FolderList folders;
    private final CompactTreeBuilder tree = new CompactTreeBuilder();
    private final ArrayDeque<Waiting> waiting = new ArrayDeque<>();
    private final BitSet reached;
    private final BitSet shared = new BitSet();
    private final BitSet walked = new BitSet();
    /** Whether a name was shown that depends on the code page. */
    private boolean codePage;

    TreeScan(VolumeSite site, FatTable table, FolderList folders) {
        this.site = site;
        this.table = table;
        this.geometry = table.geometry();
        this.folders = folders;
        this.reached = new BitSet((int) table.entries());
    }

    /** Clusters at which the chain of one entry runs into that of another. */
    BitSet shared() {
        return shared;
    }

    /** Key of a chain that no entry reaches. */
    static long lost(int cluster) {
        return -2L - cluster;
    }

    /** First cluster of a chain that no entry reaches, from its key. */
    static int lostCluster(long key) {
        return (int) (-2L - key);
    }

    CompactTree build(CompactTree.Details details, Progress progress) {
        int root = tree.add("", true, false, 0, null, -1, ROOT);
        tree.root(root);
        int first = (int) geometry.rootCluster();
        boolean placed = geometry.kind() != FatKind.FAT32 || table.exists(first);
        if (placed) {
            follow(first);
            walked.set(first);
            waiting.add(new Waiting(folders.add(first, 0), root, false));
        } else {
            tree.remark("The root directory cannot be located; what is listed was found without it.");
        }
        int done = 0;
        while (!waiting.isEmpty()) {
            progress.checkCancelled();
            folder(waiting.poll());
            progress.at("directories", ++done, 0);
        }
        lostChains(progress);
        if (codePage) {
            tree.remark("Some short names hold bytes 80 to FF. They are shown as in code page " + CodePage.current().name()
                    + ", which the volume does not name; another one can be chosen.");
        }
        SectorRanges gaps = table.missing();
        if (!gaps.isEmpty()) {
            tree.unread(gaps);
            tree.remark("Parts of the FAT were not read in any copy; chains through them are assumed to go on without a gap.");
        }
        return tree.build(details);
    }

    private void folder(Waiting next) {
        Directory directory = folders.directory(next.folder());
        if (!directory.allRead()) {
            tree.unread(directory.missing());
        }
        LongName name = new LongName();
        for (int slot = 0; slot < directory.slots(); slot++) {
            if (!directory.isRead(slot)) {
                name.clear();
                continue;
            }
            int first = directory.u8(slot, 0);
            if (first == 0) {
                break;
            }
            int attributes = directory.u8(slot, 11);
            if (first != 0xE5 && (attributes & 0x3F) == 0x0F) {
                part(name, directory, slot);
            } else {
                boolean dot = slot < 2 && first == '.' && next.id() != 0;
                if ((attributes & 0x08) == 0 && !dot) {
                    entry(next, directory, slot, first == 0xE5, name);
                }
                name.clear();
            }
        }
    }

    private static void part(LongName name, Directory directory, int slot) {
        if (!name.fits(directory, slot)) {
            name.clear();
        } else if ((directory.u8(slot, 0) & 0x40) != 0) {
            name.begin(directory, slot);
        } else {
            name.add(directory, slot);
        }
    }

    private void entry(Waiting in, Directory directory, int slot, boolean erased, LongName name) {
        boolean deleted = erased || in.deleted();
        String text;
        if (erased) {
            text = DeletedName.of(directory, slot).text();
        } else {
            boolean whole = name.begun() && name.next() == 0
                    && ShortName.checksum(directory.bytes(), slot * Directory.SLOT) == name.checksum();
            text = whole ? name.text() : Names.shortName(directory, slot);
            codePage |= !whole && ShortName.needsCodePage(directory.bytes(), slot * Directory.SLOT);
        }
        Slot fields = Slot.of(directory, slot, geometry.kind());
        int id = tree.add(text, fields.folder(), deleted, fields.folder() ? 0 : fields.bytes(), FileStamp.local(fields.written()), -1,
                FolderList.key(in.folder(), slot));
        tree.parent(id, in.id());
        int cluster = fields.cluster();
        if (!table.exists(cluster)) {
            return;
        }
        if (!deleted) {
            follow(cluster);
        }
        if (fields.folder() && !walked.get(cluster) && (!deleted || startsDirectory(cluster))) {
            walked.set(cluster);
            waiting.add(new Waiting(folders.add(cluster, deleted ? 1 : 0), id, deleted));
        }
    }

    /** Whether the cluster begins with "." of a directory at this very cluster. */
    private boolean startsDirectory(int cluster) {
        if (!site.has(geometry.clusterByte(cluster), Directory.SLOT)) {
            return false;
        }
        Directory head = Directory.of(site, geometry, Chain.contiguous(cluster, 1));
        Slot dot = Slot.of(head, 0, geometry.kind());
        return new String(head.bytes(), 0, 11, java.nio.charset.StandardCharsets.ISO_8859_1).equals(".          ") && dot.folder()
                && dot.cluster() == cluster;
    }

    private void follow(int first) {
        int cluster = first;
        while (table.exists(cluster)) {
            int entry = table.entry(cluster);
            if (entry == 0 || entry == geometry.kind().bad()) {
                return;
            }
            if (reached.get(cluster)) {
                shared.set(cluster);
                return;
            }
            reached.set(cluster);
            cluster = entry;
        }
    }

    /** Chains without an owner: folders by their ".", the rest as files of whole clusters. */
    private void lostChains(Progress progress) {
        BitSet linked = new BitSet();
        int last = table.lastCluster();
        for (int cluster = 2; cluster <= last; cluster++) {
            int entry = reached.get(cluster) ? 0 : table.entry(cluster);
            if (entry > 0 && table.exists(entry)) {
                linked.set(entry);
            }
        }
        int found = 0;
        for (int cluster = 2; cluster <= last; cluster++) {
            int entry = reached.get(cluster) || linked.get(cluster) ? 0 : table.entry(cluster);
            if (entry <= 0 || entry == geometry.kind().bad()) {
                continue;
            }
            if (++found > MOST_LOST) {
                tree.remark("More than " + MOST_LOST + " chains belong to no entry; only the first ones are listed.");
                break;
            }
            lostChain(cluster);
            progress.checkCancelled();
        }
        while (!waiting.isEmpty()) {
            folder(waiting.poll());
        }
    }

    private void lostChain(int cluster) {
        if (reached.get(cluster)) {
            return;
        }
        boolean folder = startsDirectory(cluster) && !walked.get(cluster);
        long clusters = Chain.follow(table, cluster, table.entries()).clusters();
        int id = tree.add("cluster " + cluster, folder, false, folder ? 0 : clusters * geometry.clusterBytes(), null, -1, lost(cluster));
        follow(cluster);
        if (folder) {
            walked.set(cluster);
            waiting.add(new Waiting(folders.add(cluster, 0), id, false));
            while (!waiting.isEmpty()) {
                folder(waiting.poll());
            }
        }
    }
}
