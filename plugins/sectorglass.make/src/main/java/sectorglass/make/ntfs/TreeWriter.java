package sectorglass.make.ntfs;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;

import sectorglass.make.DataFile;
import sectorglass.make.Folder;
import sectorglass.make.Node;
import sectorglass.make.SplitMix64;
import sectorglass.make.write.AllocationBits;
import sectorglass.make.write.ClusterRun;
import sectorglass.make.write.ClusterSpace;
import sectorglass.make.write.FileStream;
import sectorglass.make.write.UpCase;
import sectorglass.make.write.VolumeTarget;

/** Writes the folders and files of an NTFS volume. */
final class TreeWriter {
    private static final String INDEX = "$I30";
    /** Bytes kept free in a folder's record for the attributes that lead to its blocks. */
    private static final int NODE_ATTRIBUTES = 0x60 + 0x60;

    private record Open(Folder folder, String path, long record, int sequence, long parent) {
        long reference() {
            return Attributes.reference(record, sequence);
        }
    }

    private final VolumeTarget target;
    private final NtfsGeometry geometry;
    private final ClusterSpace space;
    private final FileStream stream;
    private final RecordSpace records;
    private final SplitMix64 gaps;
    private final Deque<Open> open = new ArrayDeque<>();
    private final List<ClusterRun> deletedRuns = new ArrayList<>();
    private final List<Long> deletedRecords = new ArrayList<>();

    TreeWriter(VolumeTarget target, NtfsGeometry geometry, ClusterSpace space, FileStream stream, RecordSpace records) {
        this.target = target;
        this.geometry = geometry;
        this.space = space;
        this.stream = stream;
        this.records = records;
        gaps = SplitMix64.of(target.seed(), "gaps");
    }

    List<ClusterRun> deletedRuns() {
        return deletedRuns;
    }

    List<Long> deletedRecords() {
        return deletedRecords;
    }

    /** Writes everything below the root, and the root itself with the entries of the system files. */
    void write(Folder root, List<IndexEntry> systemEntries) throws IOException {
        Open first = new Open(root, "", SystemRecords.ROOT, SystemRecords.ROOT, SystemRecords.rootReference());
        List<IndexEntry> entries = new ArrayList<>(systemEntries);
        entries.add(new IndexEntry(".", first.reference(), folderName(first)));
        write(first, entries);
        while (!open.isEmpty()) {
            write(open.remove(), new ArrayList<>());
        }
    }

    private byte[] folderName(Open current) {
        boolean root = current.path().isEmpty();
        return Attributes.fileName(root ? "." : current.folder().name(), current.parent(), current.folder().times(), 0, 0,
                attributes(current) | Attributes.DIRECTORY_NAME);
    }

    private static int attributes(Open current) {
        return current.path().isEmpty() ? Attributes.HIDDEN_SYSTEM : current.folder().attributes();
    }

    private void write(Open current, List<IndexEntry> entries) throws IOException {
        for (Node child : current.folder().children()) {
            Attributes.check(child.name());
            String path = current.path().isEmpty() ? child.name() : current.path() + "/" + child.name();
            long number = records.take();
            if (child instanceof DataFile file) {
                byte[] name = file(file, path, number, current);
                if (!file.deleted()) {
                    entries.add(new IndexEntry(child.name(), Attributes.reference(number, 1), name));
                }
            } else {
                Open inner = new Open((Folder) child, path, number, 1, current.reference());
                open.add(inner);
                entries.add(new IndexEntry(child.name(), inner.reference(), folderName(inner)));
            }
        }
        entries.sort(Comparator.comparing(IndexEntry::name, UpCase.NTFS::compare));
        for (int i = 1; i < entries.size(); i++) {
            if (UpCase.NTFS.compare(entries.get(i - 1).name(), entries.get(i).name()) == 0) {
                throw new IllegalArgumentException("two entries named " + entries.get(i).name());
            }
        }
        folder(current, entries);
    }

    private void folder(Open current, List<IndexEntry> entries) throws IOException {
        FileRecord record = new FileRecord(geometry.recordBytes(), current.record(), current.sequence(),
                FileRecord.IN_USE | FileRecord.DIRECTORY, 1);
        record.resident(Attributes.STANDARD_INFORMATION, "",
                Attributes.standardInformation(current.folder().times(), attributes(current)), false);
        record.resident(Attributes.FILE_NAME, "", folderName(current), true);
        int room = record.room() - FileRecord.residentBytes(INDEX, 0x20);
        DirectoryIndex index = new DirectoryIndex(geometry, entries, room, room - NODE_ATTRIBUTES);
        record.resident(Attributes.INDEX_ROOT, INDEX, index.root(), false);
        List<ClusterRun> runs = List.of();
        if (!index.blocks().isEmpty()) {
            runs = blocks(record, index.blocks());
        }
        records.write(current.record(), record);
        if (!current.path().isEmpty()) {
            target.note(current.path(), records.byteOf(current.record()), current.record(), runs, 0, 0);
        }
    }

    private List<ClusterRun> blocks(FileRecord record, List<byte[]> blocks) throws IOException {
        long bytes = (long) blocks.size() * NtfsGeometry.INDEX_BLOCK;
        ClusterRun run = space.take(geometry.clustersOf(bytes));
        long at = stream.byteOf(run.first());
        for (byte[] block : blocks) {
            target.medium().write(at, block);
            at += block.length;
        }
        record.nonResident(Attributes.INDEX_ALLOCATION, INDEX, List.of(run), run.count() * geometry.clusterBytes(), bytes, bytes);
        int bitmapBytes = (blocks.size() + 63) / 64 * 8;
        if (FileRecord.residentBytes(INDEX, bitmapBytes) <= record.room()) {
            byte[] bits = new byte[bitmapBytes];
            for (int i = 0; i < blocks.size(); i++) {
                bits[i / 8] |= (byte) (1 << i % 8);
            }
            record.resident(Attributes.BITMAP, INDEX, bits, false);
        } else {
            ClusterRun bitmap = space.take(geometry.clustersOf(bitmapBytes));
            AllocationBits.write(target.medium(), stream.byteOf(bitmap.first()), 0, List.of(new ClusterRun(0, blocks.size())));
            record.nonResident(Attributes.BITMAP, INDEX, List.of(bitmap), bitmap.count() * geometry.clusterBytes(), bitmapBytes,
                    bitmapBytes);
        }
        return List.of(run);
    }

    /** Writes a file and gives the value of its name. */
    private byte[] file(DataFile file, String path, long number, Open parent) throws IOException {
        boolean deleted = file.deleted();
        FileRecord record = newRecord(number, deleted, deleted ? 0 : 1);
        record.resident(Attributes.STANDARD_INFORMATION, "", Attributes.standardInformation(file.times(), file.attributes()), false);
        int nameRoom = FileRecord.residentBytes("", 0x42 + 2 * file.name().length());
        boolean resident = FileRecord.residentBytes("", (int) Math.min(file.bytes(), 65536)) + nameRoom <= record.room();
        List<ClusterRun> runs = resident ? List.of()
                : space.take(geometry.clustersOf(file.bytes()), file.pieces(), () -> 1 + gaps.below(4));
        long allocated = resident ? file.bytes() + 7 & ~7L : geometry.allocated(file.bytes());
        byte[] name = Attributes.fileName(file.name(), parent.reference(), file.times(), allocated, file.bytes(), file.attributes());
        boolean scattered = Fragments.extensions(file, geometry.clusterBytes()) > 0;
        if (scattered) {
            record.resident(Attributes.ATTRIBUTE_LIST, "", extensions(file, number, runs, allocated), false);
        }
        record.resident(Attributes.FILE_NAME, "", name, true);
        if (scattered) {
            stream.write(file, path, runs);
        } else if (resident) {
            record.resident(Attributes.DATA, "", stream.whole(file, path), false);
        } else {
            stream.write(file, path, runs);
            record.nonResident(Attributes.DATA, "", runs, allocated, file.bytes(), file.bytes());
        }
        records.write(number, record);
        target.note(path, records.byteOf(number), number, runs, 0, 0);
        if (deleted) {
            deletedRuns.addAll(runs);
            deletedRecords.add(number);
        }
        return name;
    }

    private FileRecord newRecord(long number, boolean deleted, int links) {
        return new FileRecord(geometry.recordBytes(), number, deleted ? 2 : 1, deleted ? 0 : FileRecord.IN_USE, links);
    }

    /** Writes the extension records of a file and gives the list that leads to them. */
    private byte[] extensions(DataFile file, long base, List<ClusterRun> runs, long allocated) throws IOException {
        long reference = Attributes.reference(base, 1);
        List<List<ClusterRun>> parts = Fragments.parts(runs);
        List<Long> references = new ArrayList<>();
        long vcn = 0;
        for (List<ClusterRun> part : parts) {
            long number = records.take();
            FileRecord record = newRecord(number, file.deleted(), 0).extending(reference);
            if (vcn == 0) {
                record.nonResident(Attributes.DATA, "", part, allocated, file.bytes(), file.bytes());
            } else {
                record.piece(Attributes.DATA, "", vcn, part);
            }
            records.write(number, record);
            references.add(Attributes.reference(number, 1));
            vcn += RunList.clusters(part);
            if (file.deleted()) {
                deletedRecords.add(number);
            }
        }
        return Fragments.list(reference, parts, references);
    }
}
