package sectorglass.ntfs;

import java.util.LinkedHashMap;
import java.util.Map;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/**
 * $MFT as a table of file records: where each lies, and its bytes. Safe for several threads; single records come through a small cache
 * of stored bytes, whole tables through {@link #scan}.
 */
final class FileTable {
    /** Where the runs of the table come from. */
    enum Origin { RECORD_0, MIRROR, ASSUMED, SCANNED, NONE }

    /** Sees each record of a scan. The view is the scan's own and changes after the call. */
    interface Visitor {
        /** @param address image byte of the record's first byte, or negative where it stands nowhere */
        void record(RecordView view, long address);
    }

    static final int CHUNK = 1 << 20;
    private static final int CACHED_BYTES = 64 << 10;
    private static final int CACHED_CHUNKS = 64;
    /** Records beyond this are not looked at: two thousand million are more than a table can hold in practice. */
    private static final long MOST_UNREAD_RECORDS = 1L << 20;
    private static final long MOST_RECORDS = Integer.MAX_VALUE - 64L;

    private final SectorImage image;
    private final Geometry geometry;
    private final RunList runs;
    private final long records;
    private final Origin origin;
    private final Map<Long, StreamPart> cache = new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Long, StreamPart> eldest) {
            return size() > CACHED_CHUNKS;
        }
    };

    /** @param bytes initialised bytes of the table's stream; cut to what the runs cover */
    FileTable(SectorImage image, Geometry geometry, RunList runs, long bytes, Origin origin) {
        this.image = image;
        this.geometry = geometry;
        this.runs = runs;
        this.origin = origin;
        long covered = 0;
        for (int i = 0; i < runs.runs(); i++) {
            if (runs.lcn(i) != RunList.HOLE && geometry.holds(runs.lcn(i), 1)) {
                covered = Math.max(covered, runs.vcn(i) + Math.min(runs.count(i), geometry.clusters() - runs.lcn(i)));
            }
        }
        // an image that ends early may lack part of the table; a claim beyond its end is followed only so far
        long beyond = MOST_UNREAD_RECORDS * geometry.recordBytes() / geometry.clusterBytes();
        covered = Math.min(covered, Math.max(beyond, runs.readableEnd(geometry, image.bytes())));
        long most = Math.min(MOST_RECORDS, Math.min(covered, Long.MAX_VALUE / geometry.clusterBytes()) * geometry.clusterBytes()
                / geometry.recordBytes());
        this.records = Math.max(0, Math.min(most, bytes / geometry.recordBytes()));
    }

    long records() {
        return records;
    }

    RunList runs() {
        return runs;
    }

    Origin origin() {
        return origin;
    }

    Geometry geometry() {
        return geometry;
    }

    SectorImage image() {
        return image;
    }

    /** Image byte of a record's first byte, or -1 where no run covers it. */
    long address(long record) {
        if (record < 0 || record >= records) {
            return -1;
        }
        return byteAt(record, 0);
    }

    /** Image byte of a byte in a record, or -1 where no run covers it. */
    long byteAt(long record, int offset) {
        long at = record * geometry.recordBytes() + offset;
        int run = runs.runAt(at / geometry.clusterBytes());
        if (run < 0 || runs.lcn(run) == RunList.HOLE) {
            return -1;
        }
        long lcn = runs.lcn(run) + at / geometry.clusterBytes() - runs.vcn(run);
        return geometry.holds(lcn, 1) ? geometry.clusterByte(lcn) + at % geometry.clusterBytes() : -1;
    }

    /** Number of the record that holds the image byte, or -1. */
    long recordAt(long imageByte) {
        long inVolume = imageByte - geometry.firstByte();
        long lcn = inVolume < 0 ? -1 : inVolume / geometry.clusterBytes();
        for (int i = 0; i < runs.runs(); i++) {
            if (runs.lcn(i) != RunList.HOLE && lcn >= runs.lcn(i) && lcn - runs.lcn(i) < runs.count(i)) {
                long at = (runs.vcn(i) + lcn - runs.lcn(i)) * geometry.clusterBytes() + inVolume % geometry.clusterBytes();
                long record = at / geometry.recordBytes();
                return record < records ? record : -1;
            }
        }
        return -1;
    }

    /** Loads a record into a view that has its own bytes; false where there is no such record. */
    boolean load(long record, RecordView view) {
        if (record < 0 || record >= records) {
            return false;
        }
        int size = geometry.recordBytes();
        long perChunk = CACHED_BYTES / size;
        long chunk = record / perChunk;
        StreamPart part;
        synchronized (cache) {
            part = cache.get(chunk);
        }
        if (part == null) {
            long first = chunk * CACHED_BYTES;
            part = StreamPart.read(image, geometry, runs, first, (int) Math.min(CACHED_BYTES, records * size - first));
            synchronized (cache) {
                cache.put(chunk, part);
            }
        }
        int at = (int) (record % perChunk) * size;
        part.loadCopy(view, at, size);
        view.number = record;
        return true;
    }

    /** The stored bytes of a record with their addresses; null where it stands nowhere. */
    Window window(long record) {
        return record < 0 || record >= records ? null
                : StreamPart.window(image, geometry, runs, record * geometry.recordBytes(), geometry.recordBytes());
    }

    /** Shows all records from one to before another to a visitor, in order of their numbers. */
    void scan(long from, long to, Visitor visitor, Progress progress) {
        int size = geometry.recordBytes();
        RecordView view = new RecordView();
        int step = Math.max(1, CHUNK / size);
        long end = Math.min(to, records);
        for (long first = Math.max(0, from); first < end; first += step) {
            progress.checkCancelled();
            progress.at("file records", first, end);
            int count = (int) Math.min(step, end - first);
            StreamPart part = StreamPart.read(image, geometry, runs, first * size, count * size);
            for (int i = 0; i < count; i++) {
                part.load(view, i * size, size);
                view.number = first + i;
                visitor.record(view, part.address(i * size));
            }
        }
    }
}
