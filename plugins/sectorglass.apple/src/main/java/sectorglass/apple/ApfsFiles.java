package sectorglass.apple;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * The files of all volumes of an APFS container: each volume is a folder of the root. Source: Apple File System Reference, "File-System
 * Objects", by way of apfs_raw.h (linux-apfs).
 */
final class ApfsFiles implements Files {
    /** The resource fork as a stream. */
    static final String RESOURCE = "resource fork";
    private static final long ROOT_FOLDER = 2;
    private static final long ROOT_PARENT = 1;
    private static final long NONE = -1;
    /** A key holds the number of the volume above the place of the inode. */
    private static final int VOLUME_SHIFT = 40;
    private static final long INODE_MASK = (1L << VOLUME_SHIFT) - 1;

    private final ApfsContainer container;
    private final List<ApfsCatalog> catalogs = new ArrayList<>();
    /** Entries of the volumes' own folders, and their names. */
    private final Map<Integer, ApfsVolumeHeader> roots = new HashMap<>();
    private CompactTree tree;

    ApfsFiles(ApfsContainer container) {
        this.container = container;
    }

    @Override
    public synchronized FileTree tree(Progress progress) {
        if (tree == null) {
            catalogs.clear();
            roots.clear();
            tree = read(progress);
        }
        return tree;
    }

    /** The catalogs, in the order of the volumes; after {@link #tree}. */
    synchronized List<ApfsCatalog> catalogs(Progress progress) {
        tree(progress);
        return List.copyOf(catalogs);
    }

    /** Number of an entry's volume, or -1. */
    int volume(int entry) {
        long key = tree.key(entry);
        return key < 0 ? -1 : (int) (key >>> VOLUME_SHIFT);
    }

    private CompactTree read(Progress progress) {
        CompactTreeBuilder builder = new CompactTreeBuilder();
        int top = builder.add("", true, false, 0, null, NONE, NONE);
        builder.root(top);
        Set<String> names = new HashSet<>();
        ApfsContainer.Volumes all = container.volumes();
        builder.unread(all.unread());
        if (all.lost() > 0) {
            builder.remark(all.lost() == 1 ? "One volume of the container cannot be found through the object map."
                    : all.lost() + " volumes of the container cannot be found through the object map.");
        }
        for (ApfsVolumeHeader volume : all.found()) {
            String name = volume.name() == null ? "volume " + volume.w.u32le(0x24) : volume.name();
            for (int i = 2; !names.add(name); i++) {
                name = (volume.name() == null ? "volume" : volume.name()) + " " + i;
            }
            int folder = builder.add(name, true, false, 0, null, NONE, NONE);
            builder.parent(folder, top);
            roots.put(folder, volume);
            new Reading(builder, volume, folder, name).read(progress);
        }
        return builder.build(this::entry);
    }

    /** Reads one volume into the tree. */
    private final class Reading {
        private final CompactTreeBuilder builder;
        private final int top;
        private final String name;
        private final int number;
        private final ApfsCatalog catalog;
        private final Map<Long, Integer> folders = new HashMap<>();
        private final LongList entries = new LongList();
        private final LongList parents = new LongList();
        private final BitSet named = new BitSet();

        Reading(CompactTreeBuilder builder, ApfsVolumeHeader volume, int top, String name) {
            this.builder = builder;
            this.top = top;
            this.name = name;
            this.number = catalogs.size();
            this.catalog = new ApfsCatalog(volume, Progress.NONE);
            catalogs.add(catalog);
            folders.put(ROOT_FOLDER, top);
        }

        void read(Progress progress) {
            for (int i = 0; i < catalog.leaves.size(); i++) {
                if ((i & 0xFF) == 0) {
                    progress.checkCancelled();
                    progress.at("file tree", i, catalog.leaves.size());
                }
                leaf(catalog.node(catalog.leaves.get(i)));
            }
            for (int i = 0; i < catalog.size(); i++) {
                if (!named.get(i) && catalog.id(i) != ROOT_FOLDER) {
                    Window w = catalog.record(i);
                    String own = ApfsRecords.ownName(w, 0, w.length());
                    add(own == null ? "inode " + catalog.id(i) : own, w.u64le(0), catalog.id(i), i, false);
                }
            }
            for (int i = 0; i < entries.size(); i++) {
                Integer folder = parents.get(i) == ROOT_PARENT ? (Integer) top : folders.get(parents.get(i));
                if (folder != null && folder != entries.get(i)) {
                    builder.parent((int) entries.get(i), folder);
                }
            }
            builder.unread(catalog.unread());
            if (catalog.size() == 0 && catalog.volume.encrypted()) {
                builder.remark("Volume \"" + name + "\" is encrypted: without its key neither names nor content can be had.");
            } else if (catalog.damaged()) {
                builder.remark("Volume \"" + name + "\": nodes of its trees are damaged or cannot be found; names, files and folders may be missing.");
            }
            if (catalog.badSums() > 0) {
                builder.remark("Volume \"" + name + "\": " + catalog.badSums() + " nodes were used although their checksums do not hold.");
            }
        }

        private void leaf(ApfsNode node) {
            boolean hashed = catalog.volume.hashed();
            for (int i = 0; node != null && i < node.count(); i++) {
                int key = node.key(i);
                int value = node.value(i);
                if (key < 0 || value < 0 || node.keyLength(i) < 8 || node.valueLength(i) < 18
                        || ApfsRecords.type(node.w, key) != ApfsRecords.NAME) {
                    continue;
                }
                long id = node.w.u64le(value);
                long parent = ApfsRecords.id(node.w, key);
                if (parent == ROOT_PARENT && id == ROOT_FOLDER) {
                    continue;
                }
                String found = ApfsRecords.name(node.w, key, node.keyLength(i), hashed);
                add(found == null ? "inode " + id : found, parent, id, catalog.inode(id), (node.w.u16le(value + 16) & 0xF) == 4);
            }
        }

        private void add(String found, long parent, long id, int inode, boolean folderByName) {
            boolean folder = inode < 0 ? folderByName : catalog.folder(inode);
            long nanos = inode < 0 ? 0 : catalog.modified(inode);
            int entry = builder.add(found, folder, false, folder ? 0 : inode < 0 ? -1 : catalog.bytes(inode),
                    nanos == 0 ? Long.MIN_VALUE : Math.floorDiv(nanos, 1000000L), id, inode < 0 ? NONE : (long) number << VOLUME_SHIFT | inode);
            if (inode >= 0) {
                named.set(inode);
            }
            if (folder) {
                folders.putIfAbsent(id, entry);
            }
            entries.add(entry);
            parents.add(parent);
        }
    }

    private ApfsCatalog catalog(long key) {
        return catalogs.get((int) (key >>> VOLUME_SHIFT));
    }

    private FileEntry entry(FileTree known, int id, long key) {
        if (key < 0) {
            ApfsVolumeHeader volume = roots.get(id);
            return volume != null ? ApfsEntry.ofVolume(known, id, volume) : ApfsEntry.unknown(known, id);
        }
        ApfsCatalog catalog = catalog(key);
        return new ApfsEntry(catalog, catalog.record((int) (key & INODE_MASK)), known.number(id)).of(known, id);
    }

    @Override
    public Content content(int entry, String stream) {
        CompactTree known = (CompactTree) tree(Progress.NONE);
        long key = known.key(entry);
        if (known.folder(entry) || !stream.isEmpty() && !stream.equals(RESOURCE)) {
            return null;
        }
        if (key < 0) {
            return stream.isEmpty() ? new ExtentContent(container.site.image(), -1, List.of()) : null;
        }
        ApfsCatalog catalog = catalog(key);
        try {
            Window w = catalog.record((int) (key & INODE_MASK));
            ApfsAttributes attributes = new ApfsAttributes(catalog, known.number(entry));
            if (!stream.isEmpty()) {
                return attributes.stream(Decmpfs.RESOURCE);
            }
            if ((w.u32le(68) & Decmpfs.FLAG) != 0 && attributes.compression() != null) {
                return attributes.compressed();
            }
            List<Extent> extents = catalog.extents(w.u64le(8));
            ExtentContent content = new ExtentContent(container.site.image(), Math.max(-1, ApfsRecords.size(w, 0, w.length())), extents);
            return catalog.volume.encrypted() && content.bytes() > 0 ? new SpecialContent(content, FileState.ENCRYPTED) : content;
        } catch (UnreadException e) {
            return new ExtentContent(container.site.image(), -1, List.of());
        }
    }

    /** What a volume keeps beside its root folder. */
    @Override
    public boolean structure(int entry) {
        CompactTree known = tree;
        for (int at = entry, steps = 0; known != null && at >= 0 && steps < 64; at = known.parent(at), steps++) {
            if (roots.containsKey(known.parent(at)) && known.number(at) < 16) {
                return true;
            }
        }
        return false;
    }
}
