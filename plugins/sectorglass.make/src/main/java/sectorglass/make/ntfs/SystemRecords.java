package sectorglass.make.ntfs;

import java.io.IOException;
import java.util.List;

import sectorglass.make.Times;
import sectorglass.make.write.Block;
import sectorglass.make.write.ClusterRun;

/** Writes the records 0 to 23 except the root folder, and knows the names that the root folder lists. */
final class SystemRecords {
    static final int ROOT = 5;
    private static final int VOLUME = 3;
    private static final int BAD_CLUSTERS = 8;
    private static final int SECURE = 9;
    private static final int EXTEND = 11;

    private final NtfsGeometry geometry;
    private final RecordSpace records;
    private final Times times;
    private final String label;

    SystemRecords(NtfsGeometry geometry, RecordSpace records, Times times, String label) {
        this.geometry = geometry;
        this.records = records;
        this.times = times;
        this.label = label;
        if (label.length() > 128) {
            throw new IllegalArgumentException("NTFS stores 128 characters of a label: " + label);
        }
    }

    static long rootReference() {
        return Attributes.reference(ROOT, ROOT);
    }

    private byte[] name(SystemFile file) {
        long attributes = file.number() == EXTEND ? Attributes.HIDDEN_SYSTEM | Attributes.DIRECTORY_NAME : Attributes.HIDDEN_SYSTEM;
        return Attributes.fileName(file.name(), rootReference(), times, file.allocated(geometry), file.bytes(), attributes);
    }

    /** The entry of a system file in the root folder. */
    IndexEntry entry(SystemFile file) {
        return new IndexEntry(file.name(), Attributes.reference(file.number(), file.sequence()), name(file));
    }

    /** A record up to its name. */
    private FileRecord start(SystemFile file, int flags) {
        FileRecord record = new FileRecord(geometry.recordBytes(), file.number(), file.sequence(), flags, 1);
        record.resident(Attributes.STANDARD_INFORMATION, "", Attributes.standardInformation(times, Attributes.HIDDEN_SYSTEM), false);
        record.resident(Attributes.FILE_NAME, "", name(file), true);
        return record;
    }

    private void data(FileRecord record, SystemFile file) {
        if (file.runs().isEmpty()) {
            record.resident(Attributes.DATA, "", new byte[0], false);
        } else {
            record.nonResident(Attributes.DATA, "", file.runs(), file.allocated(geometry), file.bytes(), file.bytes());
        }
    }

    /** An ordinary system file. */
    void plain(SystemFile file) throws IOException {
        FileRecord record = start(file, FileRecord.IN_USE);
        data(record, file);
        records.write(file.number(), record);
    }

    /** Record 0, which has a bitmap of records beside its data. */
    void table(SystemFile file, ClusterRun bitmap, long bitmapBytes) throws IOException {
        FileRecord record = start(file, FileRecord.IN_USE);
        data(record, file);
        record.nonResident(Attributes.BITMAP, "", List.of(bitmap), bitmap.count() * geometry.clusterBytes(), bitmapBytes, bitmapBytes);
        records.write(file.number(), record);
    }

    /** Label and version. */
    void volume() throws IOException {
        SystemFile file = SystemFile.empty(VOLUME, "$Volume");
        FileRecord record = start(file, FileRecord.IN_USE);
        if (!label.isEmpty()) {
            record.resident(Attributes.VOLUME_NAME, "", new Block(2 * label.length()).utf16(0, label).bytes(), false);
        }
        record.resident(Attributes.VOLUME_INFORMATION, "", new Block(12).u8(8, 3).u8(9, 1).bytes(), false);
        data(record, file);
        records.write(VOLUME, record);
    }

    /** A stream without clusters over the whole volume: none is bad. */
    void badClusters() throws IOException {
        SystemFile file = SystemFile.empty(BAD_CLUSTERS, "$BadClus");
        FileRecord record = start(file, FileRecord.IN_USE);
        data(record, file);
        long bytes = geometry.clusters() * geometry.clusterBytes();
        record.nonResident(Attributes.DATA, "$Bad", List.of(new ClusterRun(RunList.SPARSE, geometry.clusters())), bytes, bytes, 0);
        records.write(BAD_CLUSTERS, record);
    }

    /** Security descriptors and their two indexes. */
    void secure(ClusterRun descriptors, long bytes) throws IOException {
        FileRecord record = start(SystemFile.empty(SECURE, "$Secure"), FileRecord.IN_USE | FileRecord.VIEW_INDEX);
        record.nonResident(Attributes.DATA, "$SDS", List.of(descriptors), descriptors.count() * geometry.clusterBytes(), bytes, bytes);
        record.resident(Attributes.INDEX_ROOT, "$SDH", SecurityStore.byHash(), false);
        record.resident(Attributes.INDEX_ROOT, "$SII", SecurityStore.byId(), false);
        records.write(SECURE, record);
    }

    /** The folder of further system files, which is empty. */
    void extend() throws IOException {
        FileRecord record = start(SystemFile.empty(EXTEND, "$Extend"), FileRecord.IN_USE | FileRecord.DIRECTORY);
        DirectoryIndex index = new DirectoryIndex(geometry, List.of(), record.room(), record.room());
        record.resident(Attributes.INDEX_ROOT, "$I30", index.root(), false);
        records.write(EXTEND, record);
    }

    /** Records that are in use without a name, 12 to 15, and free ones, 16 to 23. */
    void reserved() throws IOException {
        for (int number = 12; number < NtfsGeometry.FIRST_USER_RECORD; number++) {
            boolean used = number < 16;
            FileRecord record = new FileRecord(geometry.recordBytes(), number, number, used ? FileRecord.IN_USE : 0, 0);
            if (used) {
                record.resident(Attributes.STANDARD_INFORMATION, "",
                        Attributes.standardInformation(times, Attributes.HIDDEN_SYSTEM), false);
                record.resident(Attributes.DATA, "", new byte[0], false);
            }
            records.write(number, record);
        }
    }
}
