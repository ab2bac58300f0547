package sectorglass.disk;

import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** Which sectors of a volume are in use, and by whom: a capability, see {@link Volume#capability}. All sectors are those of the image. */
public interface Allocation {

    /** Bytes per cluster or block. */
    int clusterBytes();

    /** Sectors that the volume's own map calls used, metadata included. */
    SectorRanges used();

    /** Sectors that the volume's own map calls free. */
    SectorRanges free();

    /** Sectors whose state is not known, because that part of the map was not read: to be treated as used. */
    SectorRanges unknown();

    /** Sectors that hold the file system's own structures, as far as known. */
    SectorRanges metadata();

    /**
     * A claim on sectors.
     *
     * @param entry id in the {@link FileTree}, or -1 where the owner is no file
     * @param stream empty for the main stream
     * @param offset byte of the stream that stands at the first sector
     * @param sectors the sectors, within what was asked for
     * @param owner in words: the file's path, or "file table", "boot sector"
     */
    record Owner(int entry, String stream, long offset, SectorRange sectors, String owner) { }

    /**
     * Who owns these sectors, by address; several claims on one sector are all given. At most some thousands.
     *
     * @param range sectors of the image
     */
    List<Owner> owners(SectorRange range, Progress progress);

    /** Who owns this sector. */
    default List<Owner> owners(long lba, Progress progress) {
        return owners(new SectorRange(lba, 1), progress);
    }
}
