package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** The files of an HFS+ volume, from the leaves of its catalog. Source: Apple TN1150, "Catalog File", by way of hfs_format.h (xnu). */
final class HfsFiles implements Files {
    /** The resource fork as a stream. */
    static final String RESOURCE = "resource fork";
    static final int DATA_FORK = 88;
    static final int RESOURCE_FORK = 168;
    private static final int OWNER_FLAGS = 41;

    private final HfsLayout layout;
    private final HfsTree catalog;
    private CompactTree tree;
    private HfsAttributes attributes;
    private HfsLinks links;

    HfsFiles(HfsLayout layout, HfsTree catalog) {
        this.layout = layout;
        this.catalog = catalog;
    }

    @Override
    public synchronized FileTree tree(Progress progress) {
        if (tree == null) {
            tree = new Reading().read(progress);
        }
        return tree;
    }

    /** One walk over the leaves. */
    private final class Reading implements HfsTree.Leaf {
        private final CompactTreeBuilder builder = new CompactTreeBuilder();
        private final Map<Long, Integer> folders = new HashMap<>();
        private final LongList parents = new LongList();
        private final LongList entries = new LongList();
        private final HfsLinks found = new HfsLinks();

        CompactTree read(Progress progress) {
            attributes = new HfsAttributes(layout, progress);
            HfsTree.Scan scan = catalog.scan(this, progress);
            builder.unread(scan.unread());
            if (!scan.whole()) {
                builder.remark(catalog.guessed ? "The header node of the catalog is of no use: all its nodes were looked at, of "
                        + catalog.nodeSize + " bytes each." : "The chain of leaves is broken or partly unread: all nodes of the catalog were looked at.");
            }
            if (catalog.nodes() > HfsTree.MOST_NODES) {
                builder.remark("The catalog claims more nodes than are looked at; the first " + HfsTree.MOST_NODES + " were.");
            }
            found.finish();
            for (HfsLinks.Link link : found.waiting()) {
                HfsLinks.Inode target = found.target(link.inode());
                entries.add(builder.add(link.name(), false, false, target == null ? -1 : target.bytes(), link.modified(),
                        target == null ? link.id() : target.id(), link.key()));
                parents.add(link.parent());
            }
            for (int i = 0; i < entries.size(); i++) {
                Integer folder = folders.get(parents.get(i));
                if (folder != null && folder != entries.get(i)) {
                    builder.parent((int) entries.get(i), folder);
                }
            }
            links = found;
            return builder.build(HfsFiles.this::entry);
        }

        @Override
        public void node(long number, Window w, int[] offsets) {
            for (int i = 0; i + 1 < offsets.length; i++) {
                int data = HfsKeys.record(w, offsets[i], offsets[i + 1]);
                int type = HfsCensus.type(w, data, offsets[i + 1]);
                if (type == HfsCensus.FOLDER || type == HfsCensus.FILE) {
                    record(w, offsets[i], data, type == HfsCensus.FOLDER, number << 16 | i);
                }
            }
        }

        private void record(Window w, int key, int data, boolean folder, long place) {
            long id = w.u32be(data + 8);
            long parent = w.u32be(key + 2);
            String name = id == 2 ? "" : name(w, key);
            Instant changed = HfsPlus.date(w.u32be(data + 16));
            long modified = changed == null ? Long.MIN_VALUE : changed.toEpochMilli();
            if (!folder && HfsLinks.isLink(w, data)) {
                found.add(new HfsLinks.Link(name, parent, id, w.u32be(data + 44), modified, place));
                return;
            }
            long bytes = folder ? 0 : Math.max(-1, bytes(w, data, id));
            int entry = builder.add(name, folder, false, bytes, modified, id, place);
            if (id == 2) {
                builder.root(entry);
            } else {
                entries.add(entry);
                parents.add(parent);
            }
            if (folder) {
                folders.putIfAbsent(id, entry);
            }
            found.see(name, parent, id, folder, bytes, place);
        }

        private long bytes(Window w, int data, long id) {
            HfsAttributes.Found compressed = (w.u8(data + OWNER_FLAGS) & Decmpfs.FLAG) == 0 ? null : attributes.compression(id);
            return compressed == null ? w.u64be(data + DATA_FORK) : compressed.header().bytes();
        }
    }

    /** The name, composed; a slash in it stands for a colon, as the standard has it. */
    static String name(Window w, int key) {
        return Normalizer.normalize(w.text(key + 8, w.u16be(key + 6) * 2, StandardCharsets.UTF_16BE), Normalizer.Form.NFC)
                .replace('/', ':');
    }

    /** A record of {@link CompactTree#key}, cut at its data. */
    private Window record(long key) {
        Window w = catalog.node(key >>> 16);
        int i = (int) (key & 0xFFFF);
        int[] offsets = HfsTree.records(w);
        int data = HfsKeys.data(w, offsets[i]);
        return w.sub(data, offsets[i + 1] - data);
    }

    /** The place of the record that holds the content: that of a link's target, or its own. */
    private long target(Window w, long key) {
        HfsLinks.Inode inode = HfsLinks.isLink(w, 0) ? links.target(w.u32be(44)) : null;
        return inode == null ? key : inode.key();
    }

    @Override
    public Content content(int entry, String stream) {
        CompactTree known = (CompactTree) tree(Progress.NONE);
        if (known.folder(entry) || known.key(entry) < 0 || !stream.isEmpty() && !stream.equals(RESOURCE)) {
            return null;
        }
        try {
            long key = known.key(entry);
            Window w = record(key);
            if (HfsLinks.isLink(w, 0)) {
                if (links.target(w.u32be(44)) == null) {
                    return new ExtentContent(layout.site.image(), -1, List.of());
                }
                w = record(target(w, key));
            }
            long id = w.u32be(8);
            Content resource = fork(w, RESOURCE_FORK, id, 0xFF);
            if (!stream.isEmpty()) {
                return resource;
            }
            if ((w.u8(OWNER_FLAGS) & Decmpfs.FLAG) != 0) {
                HfsAttributes.Found compressed = attributes.compression(id);
                if (compressed != null) {
                    return compressed.header().content(layout.site.image(), resource, compressed.imageByte());
                }
            }
            return fork(w, DATA_FORK, id, 0);
        } catch (UnreadException e) {
            return new ExtentContent(layout.site.image(), -1, List.of());
        }
    }

    private Content fork(Window w, int at, long id, int kind) {
        HfsFork fork = layout.overflow().fork(w, at, id, kind);
        List<Extent> pieces = fork.pieces(layout.firstByte(), layout.place.length());
        return new ExtentContent(layout.site.image(), fork.bytes(), pieces);
    }

    private FileEntry entry(FileTree known, int id, long key) {
        Window w = key < 0 ? null : record(key);
        HfsEntry entry = new HfsEntry(w);
        if (w != null && !known.folder(id)) {
            long at = target(w, key);
            entry.file(at == key ? w : record(at), links, attributes, known.bytes(id));
            if (entry.symbolic()) {
                entry.leadsTo(content(id, ""));
            }
        }
        return entry.of(known, id);
    }

    /** Files and folders that the file system keeps for itself: the targets of hard links and the journal. */
    @Override
    public boolean structure(int entry) {
        CompactTree known = tree;
        for (int at = entry, steps = 0; known != null && at >= 0 && at != known.root() && steps < 64; at = known.parent(at), steps++) {
            if (known.parent(at) == known.root() && HfsLinks.ownName(known.name(at))) {
                return true;
            }
        }
        return false;
    }
}
