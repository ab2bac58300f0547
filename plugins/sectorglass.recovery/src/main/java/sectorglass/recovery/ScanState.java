package sectorglass.recovery;

import java.util.List;

import sectorglass.disk.Sighting;
import sectorglass.image.SectorRange;

/**
 * How far a scan is and what it has met: enough to go on later.
 *
 * @param signatures tells whether the same signatures were looked for
 * @param bytes of the image
 * @param position image byte from which the scan goes on
 * @param open rows that may go on there, by signature
 * @param rows rows that have ended
 * @param single structures that stand alone, already decoded
 * @param leftOut how many were not kept
 * @param unread runs of sectors that were not read
 * @param unreadSectors number of all such sectors
 */
record ScanState(String signatures, long bytes, long position, List<StructureRow> open, List<StructureRow> rows, List<Sighting> single,
        long leftOut, List<SectorRange> unread, long unreadSectors) {

    /** The beginning. */
    static ScanState start(String signatures, long bytes) {
        return new ScanState(signatures, bytes, 0, List.of(), List.of(), List.of(), 0, List.of(), 0);
    }

    /** Whether a scan can go on from here. */
    boolean fits(String wanted, long imageBytes) {
        return signatures != null && signatures.equals(wanted) && bytes == imageBytes && position > 0 && position <= imageBytes && open != null
                && rows != null && single != null && unread != null;
    }
}
