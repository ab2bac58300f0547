package sectorglass.ntfs;

import java.util.Optional;

import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/**
 * The first records of a file table, or of its mirror, as they stand in a row: some may be lost. A record of NTFS 3.1 holds its own number;
 * the size of a cluster is the allocated size of any attribute divided by its clusters. Source: Linux kernel fs/ntfs3/ntfs.h (MFT_REC,
 * ATTR_NONRESIDENT).
 *
 * @param place byte from the start of the site where record 0 stands or stood
 * @param size bytes per record
 * @param cluster bytes per cluster
 * @param records how many of the first sixteen stand there
 * @param tableLcn first cluster of $MFT, from record 0; -1 where that is lost
 * @param mirrorLcn first cluster of $MFTMirr, from record 1; -1 where that is lost
 */
record RecordRow(long place, int size, int cluster, int records, long tableLcn, long mirrorLcn) {
    private static final int[] SIZES = {1024, 4096, 2048, 512};
    private static final int LOOKED_AT = 16;
    private static final int MOST_CLUSTER = 2 << 20;
    private static final int IRREGULAR = 0x80FF; // compressed or sparse: the allocated size is not that of all clusters

    /** Whether it is the table: record 0 names this place, or it is lost and record 1 names another one for the mirror. */
    boolean table() {
        return tableLcn > 0 ? tableLcn * cluster == place : records > 1 && !mirror() && place > 0;
    }

    /** Whether it is the mirror: record 1 names this place. */
    boolean mirror() {
        return mirrorLcn > 0 && mirrorLcn * cluster == place;
    }

    /** The row that begins at a place, if any of its records tells the size of a cluster. */
    static Optional<RecordRow> at(VolumeSite site, long place) {
        if (!signed(site, place)) {
            return Optional.empty();
        }
        for (int size : SIZES) {
            Optional<RecordRow> row = at(site, place, size);
            if (row.isPresent()) {
                return row;
            }
        }
        return Optional.empty();
    }

    /** Whether any record stands near the place: most places hold none, and are left with one reading. */
    private static boolean signed(VolumeSite site, long place) {
        if (place < 0 || place + LOOKED_AT * SIZES[0] > site.image().bytes() - site.firstByte()) {
            return false;
        }
        Window window = site.window(place, LOOKED_AT * SIZES[0]);
        for (int at = 0; at < window.length(); at += FixedBlock.STRIDE) {
            if (window.isRead(at, 4) && window.matches(at, "FILE")) {
                return true;
            }
        }
        return false;
    }

    private static Optional<RecordRow> at(VolumeSite site, long place, int size) {
        int cluster = 0;
        int records = 0;
        long table = -1;
        long mirror = -1;
        for (int number = 0; number < LOOKED_AT; number++) {
            RecordView view = record(site, place + (long) number * size, size);
            boolean own = view != null && (view.numbered() ? view.u32(RecordView.NUMBER) == number : number == 0 || records > 0);
            if (!own) {
                continue;
            }
            records++;
            int bytes = clusterBytes(view);
            if (bytes > 0 && cluster > 0 && bytes != cluster) {
                return Optional.empty();
            }
            cluster = bytes > 0 ? bytes : cluster;
            table = number == 0 ? firstCluster(view) : table;
            mirror = number == 1 ? firstCluster(view) : mirror;
        }
        return cluster == 0 || place % cluster != 0 ? Optional.empty() : Optional.of(new RecordRow(place, size, cluster, records, table, mirror));
    }

    /** Where the row begins to which the record at a place belongs by its number. */
    static Optional<Long> start(VolumeSite site, long place) {
        for (int size : SIZES) {
            RecordView view = record(site, place, size);
            if (view != null && view.numbered() && view.u32(RecordView.NUMBER) < LOOKED_AT) {
                long first = place - view.u32(RecordView.NUMBER) * size;
                return first > 0 ? Optional.of(first) : Optional.empty();
            }
        }
        return Optional.empty();
    }

    /** The usable base record in use of that size at a place, or null. */
    static RecordView record(VolumeSite site, long place, int size) {
        if (place < 0 || place + size > site.image().bytes() - site.firstByte()) {
            return null;
        }
        byte[] bytes = new byte[size];
        SectorStates states = site.image().read(site.firstByte() + place, bytes, 0, size);
        if (bytes[0] != 'F') {
            return null;
        }
        RecordView view = new RecordView();
        view.load(bytes, 0, size, states, site.firstByte() + place);
        return view.usable() && view.u32(RecordView.ALLOCATED) == size && view.inUse() && view.isBase() ? view : null;
    }

    /** Bytes per cluster by the first attribute that tells it; 0 where none does. */
    private static int clusterBytes(RecordView view) {
        view.rewind();
        while (view.nextAttribute()) {
            boolean regular = !view.resident() && view.has(view.attribute, 0x40) && (view.attributeFlags() & IRREGULAR) == 0
                    && view.lowestVcn() == 0 && view.highestVcn() >= 0 && view.highestVcn() < Long.MAX_VALUE - 1;
            if (regular && view.allocatedSize() > 0) {
                long clusters = view.highestVcn() + 1;
                long bytes = view.allocatedSize() / clusters;
                boolean whole = view.allocatedSize() % clusters == 0 && Long.bitCount(bytes) == 1;
                return whole && bytes >= FixedBlock.STRIDE && bytes <= MOST_CLUSTER ? (int) bytes : 0;
            }
        }
        return 0;
    }

    /** First cluster of the unnamed $DATA, or -1. */
    private static long firstCluster(RecordView view) {
        view.rewind();
        while (view.nextAttribute()) {
            if (view.type() == AttributeType.DATA && view.nameLength() == 0 && !view.resident() && view.has(view.attribute, 0x40)) {
                RunList runs = new RunList();
                runs.add(view, view.runsOffset(), view.next, 0);
                return runs.runs() == 0 ? -1 : runs.lcn(0);
            }
        }
        return -1;
    }
}
