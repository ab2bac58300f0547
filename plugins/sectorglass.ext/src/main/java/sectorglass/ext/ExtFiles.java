package sectorglass.ext;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.CompactTree;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileStamp;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTimes;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.image.Window;

/** The files of an ext volume. */
final class ExtFiles implements Files {
    private final Layout layout;
    private final Groups groups;
    private CompactTree tree;

    ExtFiles(Layout layout, Groups groups) {
        this.layout = layout;
        this.groups = groups;
    }

    @Override
    public synchronized FileTree tree(Progress progress) {
        if (tree == null) {
            tree = new TreeScan(layout, groups, progress).run(this::entry, progress);
        }
        return tree;
    }

    /** The inode of an entry, or null where it was not read. */
    private Inode inode(long number) {
        long at = groups.inode(number);
        if (at < 0) {
            return null;
        }
        Window w = layout.site.window(at, layout.sb.inodeSize());
        return w.isRead(0, w.length()) ? new Inode(number, w) : null;
    }

    @Override
    public Content content(int entry, String stream) {
        FileTree known = tree(Progress.NONE);
        if (!stream.isEmpty() || known.folder(entry)) {
            return null;
        }
        Inode inode = inode(known.number(entry));
        return inode == null ? new ExtentContent(layout.site.image(), -1, List.of()) : content(inode);
    }

    private Content content(Inode inode) {
        if (!inode.typeKnown() || inode.type() != Inode.REGULAR && inode.type() != Inode.LINK) {
            return new ExtentContent(layout.site.image(), 0, List.of());
        }
        long size = Math.max(0, inode.size(layout.sb));
        List<Extent> extents = new ArrayList<>();
        if (inode.has(Inode.INLINE) || inode.fastLink(layout.sb)) {
            long at = 0;
            for (Window part : InlineData.fileParts(inode)) {
                extents.add(new Extent(Extent.Kind.RESIDENT, at, part.length(), part.start(), part.length()));
                at += part.length();
            }
            return new ExtentContent(layout.site.image(), size, extents);
        }
        BlockMap map = Maps.of(layout, inode);
        long next = 0;
        for (BlockMap.Run run : map.runs) {
            long offset = run.logical() * layout.blockSize;
            if (run.logical() < next || offset >= size) {
                continue;
            }
            if (map.whole() && run.logical() > next) {
                extents.add(Extent.hole(next * layout.blockSize, (run.logical() - next) * layout.blockSize));
            }
            long length = run.count() * layout.blockSize;
            extents.add(run.unwritten() ? Extent.hole(offset, length)
                    : Extent.plain(offset, length, layout.block(run.physical()).start()));
            next = run.logical() + run.count();
        }
        if (map.whole() && next * layout.blockSize < size) {
            extents.add(Extent.hole(next * layout.blockSize, size - next * layout.blockSize));
        }
        return new ExtentContent(layout.site.image(), size, extents);
    }

    private FileEntry entry(FileTree known, int id, long key) {
        Inode inode = key > 0 ? inode(key) : null;
        List<String> attributes = new ArrayList<>();
        List<String> remarks = new ArrayList<>();
        List<FileEntry.Stream> streams = new ArrayList<>();
        FileTimes times = FileTimes.NONE;
        FileState special = null;
        int links = 1;
        if (inode == null && key > 0) {
            remarks.add("The inode was not read: size and place are not known.");
        }
        if (inode != null) {
            times = new FileTimes(stamp(inode.time(0x90, 0x94, 24)), stamp(inode.modified()), stamp(inode.time(0xC, 0x84, 8)),
                    stamp(inode.time(8, 0x8C, 16)));
            links = inode.links();
            describe(inode, attributes, remarks);
            special = inode.has(Inode.ENCRYPTED) ? FileState.ENCRYPTED : null;
            if (!known.folder(id)) {
                streams.add(new FileEntry.Stream("", known.bytes(id), special != null ? "encrypted"
                        : inode.has(Inode.INLINE) || inode.fastLink(layout.sb) ? "resident" : "plain"));
            }
        }
        return new FileEntry(id, known.parent(id), known.number(id), known.name(id), known.path(id), known.folder(id), known.deleted(id),
                known.bytes(id), times, List.copyOf(attributes), links, List.copyOf(streams), special, List.copyOf(remarks));
    }

    private void describe(Inode inode, List<String> attributes, List<String> remarks) {
        String[] types = {"", "pipe", "character device", "", "", "", "block device", "", "", "", "symbolic link", "", "socket"};
        int type = inode.type();
        if (type < types.length && !types[type].isEmpty()) {
            attributes.add(types[type]);
        }
        if (inode.has(0x10)) {
            attributes.add("immutable");
        }
        if (inode.has(0x20)) {
            attributes.add("append only");
        }
        if (type == Inode.LINK && inode.size(layout.sb) <= layout.blockSize && !inode.has(Inode.ENCRYPTED)) {
            byte[] target = new byte[(int) inode.size(layout.sb)];
            if (content(inode).read(0, target, 0, target.length).isEmpty()) {
                remarks.add("leads to " + sectorglass.image.SafeText.of(new String(target, StandardCharsets.UTF_8)));
            }
        }
        if (inode.links() == 0) {
            remarks.add("Deleted: its blocks may have been given to other files since.");
        }
        if (layout.sb.sums() && !inode.sumHolds(layout.seed)) {
            remarks.add("The checksum of its inode does not hold: size and place may be wrong.");
        }
    }

    private static FileStamp stamp(long millis) {
        return millis == Long.MIN_VALUE ? null : FileStamp.of(Instant.ofEpochMilli(millis));
    }
}
