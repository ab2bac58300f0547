package sectorglass.fat;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** What was not read of a piece of a volume. */
final class Gaps {

    private Gaps() {
    }

    /** The sectors under these bytes, counted from the start of the volume, that were not read. */
    static SectorRanges of(VolumeSite site, long at, long length) {
        if (length <= 0) {
            return SectorRanges.EMPTY;
        }
        return of(site, new ByteRange(site.firstByte() + at, length));
    }

    /** The sectors under these image bytes that were not read. */
    static SectorRanges of(VolumeSite site, ByteRange bytes) {
        SectorRange run = bytes.sectors(site.image().sectorSize());
        return SectorRanges.of(run).minus(site.image().inState(ReadState.READ, run));
    }
}
