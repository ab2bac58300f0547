package sectorglass.ntfs;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.CompactTree;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileStamp;
import sectorglass.disk.FileTimes;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.image.Progress;

/** The files of a volume. */
final class NtfsFiles implements Files {
    private static final int RESERVED = 16;
    private static final int EXTEND = 11;

    private final TableSource source;
    private CompactTree tree;

    NtfsFiles(TableSource source) {
        this.source = source;
    }

    @Override
    public synchronized FileTree tree(Progress progress) {
        if (tree == null) {
            tree = new TreeScan(source.searched(progress).table()).build(this::entry, progress);
        }
        return tree;
    }

    /** Records 0 to 15 but for the root, and what lies below $Extend (Linux-NTFS documentation, "System files"). */
    @Override
    public boolean structure(int entry) {
        CompactTree known = tree;
        for (int at = entry, steps = 0; known != null && at >= 0 && at != known.root() && steps < 64; at = known.parent(at), steps++) {
            long number = known.number(at);
            if (number == EXTEND || at == entry && number >= 0 && number < RESERVED) {
                return true;
            }
        }
        return false;
    }

    private FileEntry entry(FileTree of, int id, long number) {
        FileTable table = source.table();
        List<String> remarks = new ArrayList<>();
        FileRecord file = number < 0 ? null : FileRecord.of(table, number);
        if (file == null || id == of.withoutFolder()) {
            if (number >= 0) {
                remarks.add("The file record is lost; name, size and time come from the folder's index, or are not known.");
            }
            FileStamp modified = of.modified(id);
            return new FileEntry(id, of.parent(id), number, of.name(id), of.path(id), of.folder(id), of.deleted(id), of.bytes(id),
                    modified == null ? FileTimes.NONE : new FileTimes(null, modified, null, null), List.of(), 1,
                    of.folder(id) ? List.of() : List.of(new FileEntry.Stream("", of.bytes(id), "unknown")), null, remarks);
        }
        FileState special = FileKinds.special(file, remarks);
        if (file.torn) {
            remarks.add("The record was written only in part; what follows the damaged place may be missing.");
        }
        if (file.incomplete) {
            remarks.add("Some attributes of the file could not be read.");
        }
        return new FileEntry(id, of.parent(id), number, of.name(id), of.path(id), of.folder(id), of.deleted(id), of.bytes(id),
                times(file), file.standard == null || file.standard.length < 0x30 ? List.of()
                        : FileKinds.attributes(FileKinds.number(file.standard, 0x20, 4)),
                file.links, streams(file), special, List.copyOf(remarks));
    }

    private static FileTimes times(FileRecord file) {
        byte[] standard = file.standard;
        if (standard == null || standard.length < 0x30) {
            return FileTimes.NONE;
        }
        return new FileTimes(stamp(standard, 0), stamp(standard, 8), stamp(standard, 16), stamp(standard, 24));
    }

    private static FileStamp stamp(byte[] standard, int at) {
        Instant moment = NameValue.instant(TreeScan.ticks(standard, at));
        return moment == null ? null : FileStamp.of(moment);
    }

    private static List<FileEntry.Stream> streams(FileRecord file) {
        List<FileEntry.Stream> streams = new ArrayList<>();
        for (FileStream stream : file.all()) {
            if (stream.type == AttributeType.DATA) {
                FileEntry.Stream one = new FileEntry.Stream(stream.name, stream.size(), storage(stream));
                if (stream.name.isEmpty()) {
                    streams.add(0, one);
                } else {
                    streams.add(one);
                }
            }
        }
        return List.copyOf(streams);
    }

    private static String storage(FileStream stream) {
        return stream.resident ? "resident" : stream.encrypted() ? "encrypted" : stream.compressed() ? "compressed"
                : (stream.flags & FileStream.SPARSE) != 0 ? "sparse" : "plain";
    }

    @Override
    public Content content(int entry, String stream) {
        FileTree of = tree(Progress.NONE);
        long number = of.number(entry);
        FileTable table = source.table();
        FileRecord file = number < 0 ? null : FileRecord.of(table, number);
        if (file == null) {
            long bytes = of.bytes(entry);
            return of.folder(entry) || !stream.isEmpty() ? null
                    : new ExtentContent(table.image(), bytes, bytes > 0 ? List.of(Extent.unknown(0, bytes)) : List.of());
        }
        FileStream found = file.stream(AttributeType.DATA, stream).orElse(null);
        if (found == null) {
            return stream.isEmpty() && !file.directory() ? absent(file) : null;
        }
        FileState special = stream.isEmpty() ? FileKinds.special(file, new ArrayList<>())
                : found.encrypted() ? FileState.ENCRYPTED : null;
        List<String> doubts = new ArrayList<>();
        if (!file.inUse() && !found.resident) {
            source.now().clusters().reused(found, doubts);
        }
        return NtfsContent.of(table.image(), table.geometry(), found, special, doubts);
    }

    /** A file without a main stream is empty, unless a part of its records is missing. */
    private Content absent(FileRecord file) {
        return new ExtentContent(source.table().image(), file.incomplete ? -1 : 0, List.of());
    }
}
