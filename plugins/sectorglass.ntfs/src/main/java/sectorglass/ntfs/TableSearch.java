package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * Puts the file table together from records found by scanning the volume: since version 3.1 each holds its own number, so that a run of
 * the table shows itself as records whose numbers follow each other. For volumes whose record 0 and its mirror are both gone.
 */
final class TableSearch {
    private static final int STEP = 1 << 20;
    /** Records in a row that a piece of the table must have: a lone one may be a stray copy. */
    private static final int LEAST_ROW = 2;
    private static final int MOST_RUNS = 1 << 20;
    private static final int MOST_FIRSTS = 64;

    private final SectorImage image;
    private final Geometry geometry;
    private final RunList runs = new RunList();
    private long rowCluster = -1;
    private long rowVcn;
    private long rowRecords;
    private long bytes;
    /** Places of records that call themselves record 0. */
    private final List<Long> firsts = new ArrayList<>();

    TableSearch(SectorImage image, Geometry geometry) {
        this.image = image;
        this.geometry = geometry;
    }

    /** Scans the whole volume; null where no record was found. */
    FileTable find(Progress progress) {
        long end = Math.min(geometry.clusters() * geometry.clusterBytes(), image.bytes() - geometry.firstByte());
        byte[] buffer = new byte[STEP];
        for (long at = 0; at < end; at += STEP) {
            progress.checkCancelled();
            progress.at("search for file records", at, end);
            int length = (int) Math.min(STEP, end - at);
            Arrays.fill(buffer, (byte) 0);
            SectorStates states = image.read(geometry.firstByte() + at, buffer, 0, length);
            piece(buffer, length, at, states);
        }
        close();
        runs.sort();
        FileTable told = told();
        return told != null ? told : runs.runs() == 0 ? null : new FileTable(image, geometry, runs, bytes, FileTable.Origin.SCANNED);
    }

    /** The table as some copy of record 0 tells it, if that agrees with most of the pieces that were found. */
    private FileTable told() {
        for (long place : firsts) {
            FileTable table = new FileTableFinder(image, geometry).at(place, FileTable.Origin.SCANNED);
            long agree = 0;
            long all = 0;
            for (int i = 0; table != null && i < runs.runs(); i++) {
                long record = runs.vcn(i) * geometry.clusterBytes() / geometry.recordBytes();
                agree += table.address(record) == geometry.clusterByte(runs.lcn(i)) ? runs.count(i) : 0;
                all += runs.count(i);
            }
            if (table != null && agree > all / 2) {
                return table;
            }
        }
        return null;
    }

    private void piece(byte[] buffer, int length, long place, SectorStates states) {
        int size = geometry.recordBytes();
        int step = Math.max(size, geometry.clusterBytes());
        RecordView view = new RecordView();
        for (int at = 0; at + size <= length; at += step) {
            long cluster = (place + at) / geometry.clusterBytes();
            long number = -1;
            if (buffer[at] == 'F' && buffer[at + 1] == 'I') {
                view.load(buffer, at, size, states, geometry.firstByte() + place + at);
                number = view.usable() && view.numbered() ? view.u32(RecordView.NUMBER) : -1;
                if (number == 0 && !view.inUse()) {
                    number = -1; // formatters leave 0 in records that were never used
                }
                if (number == 0 && view.isBase() && firsts.size() < MOST_FIRSTS) {
                    firsts.add(geometry.firstByte() + place + at);
                }
            }
            record(cluster, number);
        }
    }

    /** Takes the number of the record at the start of a cluster, or of a group of clusters as large as a record. */
    private void record(long cluster, long number) {
        long vcn = number < 0 || number * geometry.recordBytes() % geometry.clusterBytes() != 0 ? -1
                : number * geometry.recordBytes() / geometry.clusterBytes();
        long clusters = Math.max(1, geometry.recordBytes() / geometry.clusterBytes());
        boolean goesOn = rowCluster >= 0 && vcn == rowVcn + cluster - rowCluster;
        if (goesOn) {
            rowRecords = cluster - rowCluster + clusters;
            return;
        }
        // a blank or unread record inside the table does not end a row at once: free records may be blank
        if (vcn < 0 && rowCluster >= 0 && cluster - rowCluster - rowRecords < 64) {
            return;
        }
        close();
        if (vcn >= 0) {
            rowCluster = cluster;
            rowVcn = vcn;
            rowRecords = clusters;
        }
    }

    private void close() {
        boolean mirror = rowCluster == geometry.mirrorLcn() && rowVcn == 0;
        long least = Math.max(1, (long) LEAST_ROW * geometry.recordBytes() / geometry.clusterBytes());
        if (rowCluster >= 0 && !mirror && rowRecords >= least && runs.runs() < MOST_RUNS && runs.runAt(rowVcn) < 0) {
            runs.append(rowVcn, rowCluster, rowRecords);
            runs.sort();
            bytes = Math.max(bytes, (rowVcn + rowRecords) * geometry.clusterBytes());
        }
        rowCluster = -1;
    }
}
