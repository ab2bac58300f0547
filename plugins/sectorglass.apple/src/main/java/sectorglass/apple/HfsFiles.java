package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.time.Instant;
import java.util.ArrayList;
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
import sectorglass.disk.FileStamp;
import sectorglass.disk.FileTimes;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.VolumeFacts;
import sectorglass.image.Progress;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** The files of an HFS+ volume, from the leaves of its catalog. Source: Apple TN1150 by way of hfs_format.h (xnu). */
final class HfsFiles implements Files {
    /** The resource fork as a stream. */
    private static final String RESOURCE = "resource fork";
    private static final int FOLDER = 1;
    private static final int FILE = 2;

    private final HfsCatalog catalog;
    private final HfsOverflow overflow;
    private CompactTree tree;

    HfsFiles(HfsCatalog catalog, Window volumeHeader) {
        this.catalog = catalog;
        this.overflow = new HfsOverflow(catalog, volumeHeader);
    }

    @Override
    public synchronized FileTree tree(Progress progress) {
        if (tree == null) {
            tree = read(progress);
        }
        return tree;
    }

    private CompactTree read(Progress progress) {
        CompactTreeBuilder builder = new CompactTreeBuilder();
        Map<Long, Integer> folders = new HashMap<>();
        List<long[]> parents = new ArrayList<>();
        Set<Long> done = new HashSet<>();
        boolean whole = chain(builder, folders, parents, done, progress);
        if (!whole) {
            builder.remark("The chain of leaves is broken or partly unread: all nodes of the catalog were looked at.");
            for (long node = 1; node < catalog.nodes(); node++) {
                progress.checkCancelled();
                if (done.add(node)) {
                    leaf(node, builder, folders, parents);
                }
            }
        }
        for (long[] pair : parents) {
            Integer folder = folders.get(pair[1]);
            if (folder != null && folder != pair[0]) {
                builder.parent((int) pair[0], folder);
            }
        }
        return builder.build(this::entry);
    }

    private boolean chain(CompactTreeBuilder builder, Map<Long, Integer> folders, List<long[]> parents, Set<Long> done, Progress progress) {
        Long at = VolumeFacts.known(() -> catalog.header.u32be(24));
        while (at != null && at != 0) {
            progress.checkCancelled();
            if (at >= catalog.nodes() || !done.add(at) || !leaf(at, builder, folders, parents)) {
                return false;
            }
            long node = at;
            at = VolumeFacts.known(() -> catalog.node(node).u32be(0));
        }
        return at != null;
    }

    /** Adds the records of a node; false where it is no leaf or was not read. */
    private boolean leaf(long number, CompactTreeBuilder builder, Map<Long, Integer> folders, List<long[]> parents) {
        Window w = catalog.node(number);
        if (!w.isRead(0, w.length())) {
            builder.unread(w.missing(0, w.length()));
            return false;
        }
        int[] offsets = w.u8(8) == 0xFF && w.u8(9) == 1 ? HfsCatalog.records(w) : null;
        if (offsets == null) {
            return false;
        }
        for (int i = 0; i + 1 < offsets.length; i++) {
            int data = data(w, offsets[i], offsets[i + 1]);
            int type = data < 0 ? 0 : w.u16be(data);
            boolean folder = type == FOLDER && data + 88 <= offsets[i + 1];
            if (!folder && !(type == FILE && data + 248 <= offsets[i + 1])) {
                continue;
            }
            long id = w.u32be(data + 8);
            long parent = w.u32be(offsets[i] + 2);
            String name = id == 2 ? "" : name(w, offsets[i]);
            Instant changed = HfsPlus.date(w.u32be(data + 16));
            int entry = builder.add(name, folder, false, folder ? 0 : Math.max(-1, w.u64be(data + 88)),
                    changed == null ? Long.MIN_VALUE : changed.toEpochMilli(), id, number << 16 | i);
            if (id == 2) {
                builder.root(entry);
            } else {
                parents.add(new long[] {entry, parent});
            }
            if (folder) {
                folders.putIfAbsent(id, entry);
            }
        }
        return true;
    }

    /** Offset of a record's data, or -1 where its key is not legal. */
    static int data(Window w, int key, int end) {
        int length = w.u16be(key);
        int data = key + 2 + length + (length & 1);
        return length < 6 || length > 516 || data + 10 > end || w.u16be(key + 6) * 2 + 6 > length ? -1 : data;
    }

    /** The name, composed; a slash in it stands for a colon, as the standard has it. */
    private static String name(Window w, int key) {
        return Normalizer.normalize(w.text(key + 8, w.u16be(key + 6) * 2, StandardCharsets.UTF_16BE), Normalizer.Form.NFC)
                .replace('/', ':');
    }

    /** A record, cut at its data. */
    private Window record(long key) {
        Window w = catalog.node(key >>> 16);
        int i = (int) (key & 0xFFFF);
        int[] offsets = HfsCatalog.records(w);
        int data = data(w, offsets[i], offsets[i + 1]);
        return w.sub(data, offsets[i + 1] - data);
    }

    @Override
    public Content content(int entry, String stream) {
        CompactTree known = (CompactTree) tree(Progress.NONE);
        if (known.folder(entry) || !stream.isEmpty() && !stream.equals(RESOURCE)) {
            return null;
        }
        try {
            Window w = record(known.key(entry));
            boolean resource = !stream.isEmpty();
            HfsFork fork = overflow.fork(w, resource ? 168 : 88, known.number(entry), resource ? 0xFF : 0);
            List<Extent> extents = new ArrayList<>();
            long offset = 0;
            for (int i = 0; i < fork.starts().size(); i++) {
                long length = fork.counts().get(i) * fork.blockSize();
                long at = fork.starts().get(i) * fork.blockSize();
                extents.add(at + length > catalog.place.length() + fork.blockSize() ? Extent.unknown(offset, length)
                        : Extent.plain(offset, length, catalog.site.firstByte() + catalog.place.start() + at));
                offset += length;
            }
            return new ExtentContent(catalog.site.image(), fork.bytes(), extents);
        } catch (UnreadException e) {
            return new ExtentContent(catalog.site.image(), -1, List.of());
        }
    }

    private FileEntry entry(FileTree known, int id, long key) {
        List<FileEntry.Stream> streams = new ArrayList<>();
        List<String> attributes = new ArrayList<>();
        List<String> remarks = new ArrayList<>();
        FileTimes times = FileTimes.NONE;
        if (key >= 0) {
            Window w = record(key);
            times = new FileTimes(stamp(w.u32be(12)), stamp(w.u32be(16)), stamp(w.u32be(20)), stamp(w.u32be(24)));
            if (!known.folder(id)) {
                streams.add(new FileEntry.Stream("", known.bytes(id), "plain"));
                if (w.u64be(168) > 0) {
                    streams.add(new FileEntry.Stream(RESOURCE, w.u64be(168), "plain"));
                }
                if (w.matches(48, "hlnkhfs+")) {
                    remarks.add("A hard link: its content is that of iNode" + w.u32be(44) + ".");
                }
                if ((w.u16be(2) & 1) != 0) {
                    attributes.add("locked");
                }
            }
        }
        return new FileEntry(id, known.parent(id), known.number(id), known.name(id), known.path(id), known.folder(id), false,
                known.bytes(id), times, List.copyOf(attributes), 1, List.copyOf(streams), null, List.copyOf(remarks));
    }

    private static FileStamp stamp(long seconds) {
        return FileStamp.of(HfsPlus.date(seconds));
    }
}
