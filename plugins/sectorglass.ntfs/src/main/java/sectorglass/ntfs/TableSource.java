package sectorglass.ntfs;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;

/**
 * The file table of a volume, shared by all its services. Where neither record 0 nor its mirror tells where the table lies, its pieces
 * are looked for all over the volume, once, by the first service that does long work anyway; from then on all use what was found.
 */
final class TableSource {

    /**
     * What is known of the volume through one table.
     *
     * @param table the file records
     * @param clusters $Bitmap
     * @param facts what the volume says of itself
     */
    record State(FileTable table, ClusterMap clusters, VolumeFacts facts) {

        static State of(FileTable table) {
            ClusterMap clusters = new ClusterMap(table);
            return new State(table, clusters, new VolumeFacts(table, clusters));
        }
    }

    private volatile State now;
    private boolean searched;

    TableSource(SectorImage image, Geometry geometry) {
        now = State.of(new FileTableFinder(image, geometry).find());
    }

    /** What is known so far; reads nothing. */
    State now() {
        return now;
    }

    FileTable table() {
        return now.table();
    }

    /** The same after the search, where one is needed. */
    synchronized State searched(Progress progress) {
        FileTable table = now.table();
        if (!searched && (table.origin() == FileTable.Origin.ASSUMED || table.origin() == FileTable.Origin.NONE)) {
            FileTable found = new TableSearch(table.image(), table.geometry()).find(progress);
            if (found != null && found.records() >= table.records()) {
                now = State.of(found);
            }
        }
        searched = true;
        return now;
    }
}
