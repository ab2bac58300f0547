package sectorglass.apple;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.FileEntry;
import sectorglass.disk.FileStamp;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTimes;
import sectorglass.disk.FileTree;
import sectorglass.image.SafeText;
import sectorglass.image.Window;

/** Puts together everything known of one file of APFS. Source: Apple File System Reference, "Inode Records", by way of apfs_raw.h. */
final class ApfsEntry {
    private static final int SPARSE = 0x200;
    private static final int CLONED = 0x10;

    private final ApfsCatalog catalog;
    private final Window inode;
    private final ApfsAttributes values;

    ApfsEntry(ApfsCatalog catalog, Window inode, long number) {
        this.catalog = catalog;
        this.inode = inode;
        this.values = new ApfsAttributes(catalog, number);
    }

    /** The folder that stands for a volume. */
    static FileEntry ofVolume(FileTree known, int id, ApfsVolumeHeader volume) {
        List<String> remarks = new ArrayList<>();
        remarks.add("A volume of the container, role " + volume.role() + ".");
        if (volume.encrypted()) {
            remarks.add("The volume is encrypted: without its key its content cannot be had.");
        }
        if (volume.snapshots() > 0) {
            remarks.add("The volume has " + volume.snapshots() + " snapshots, which are not listed.");
        }
        return entry(known, id, FileTimes.NONE, List.of(), 1, List.of(), volume.encrypted() ? FileState.ENCRYPTED : null, remarks);
    }

    /** An entry whose inode was not read or does not exist. */
    static FileEntry unknown(FileTree known, int id) {
        return entry(known, id, FileTimes.NONE, List.of(), 1, known.folder(id) ? List.of() : List.of(new FileEntry.Stream("", -1, "unknown")), null,
                known.number(id) < 0 ? List.of() : List.of("The inode was not read or does not exist: size, times and place are not known."));
    }

    private static FileEntry entry(FileTree known, int id, FileTimes times, List<String> attributes, int links, List<FileEntry.Stream> streams,
            FileState special, List<String> remarks) {
        return new FileEntry(id, known.parent(id), known.number(id), known.name(id), known.path(id), known.folder(id), false, known.bytes(id),
                times, attributes, links, streams, special, List.copyOf(remarks));
    }

    FileEntry of(FileTree known, int id) {
        List<String> remarks = new ArrayList<>();
        List<String> attributes = new ArrayList<>();
        List<FileEntry.Stream> streams = new ArrayList<>();
        boolean folder = known.folder(id);
        long flags = inode.u64le(48);
        boolean encrypted = catalog.volume.encrypted();
        if ((inode.u32le(68) & 2) != 0) {
            attributes.add("locked");
        }
        if (!folder) {
            Decmpfs compression = (inode.u32le(68) & Decmpfs.FLAG) == 0 ? null : values.compression();
            streams.add(new FileEntry.Stream("", known.bytes(id), encrypted ? "encrypted" : compression != null ? "compressed"
                    : (flags & SPARSE) != 0 ? "sparse" : "plain"));
            if (values.resourceBytes() > 0) {
                streams.add(new FileEntry.Stream(ApfsFiles.RESOURCE, values.resourceBytes(), encrypted ? "encrypted" : "plain"));
            }
            if ((inode.u32le(68) & Decmpfs.FLAG) != 0) {
                attributes.add("compressed");
                String remark = compression == null ? "Marked as compressed by the file system, but its attribute " + Decmpfs.NAME
                        + " was not found." : compression.remark();
                if (remark != null) {
                    remarks.add(remark);
                }
            }
            if (values.target() != null) {
                remarks.add("A symbolic link to " + SafeText.of(values.target()) + ".");
            }
            if ((flags & CLONED) != 0) {
                remarks.add("A clone: it may share its blocks with other files.");
            }
        }
        int links = folder ? 1 : (int) Math.max(1, Math.min(Integer.MAX_VALUE, inode.u32le(56)));
        return entry(known, id, new FileTimes(stamp(16), stamp(24), stamp(32), stamp(40)), List.copyOf(attributes), links, List.copyOf(streams),
                encrypted && !folder ? FileState.ENCRYPTED : null, remarks);
    }

    private FileStamp stamp(int at) {
        long nanos = inode.u64le(at);
        return nanos == 0 ? null : FileStamp.of(Instant.ofEpochSecond(Math.floorDiv(nanos, 1000000000L), Math.floorMod(nanos, 1000000000L)));
    }
}
