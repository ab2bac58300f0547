package sectorglass.recovery;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/**
 * A merged view in which disputed sectors come from one copy, where it read them.
 *
 * @param merged the view
 * @param copy the copy
 * @param own disputed sectors that it read
 */
record PreferredCopy(MergedImage merged, SectorImage copy, SectorRanges own) implements SectorImage {

    @Override
    public String name() {
        return copy.name();
    }

    @Override
    public int sectorSize() {
        return merged.sectorSize();
    }

    @Override
    public long bytes() {
        return merged.bytes();
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        SectorStates states = merged.read(firstByte, into, offset, length);
        int size = sectorSize();
        for (long at = firstByte; at < firstByte + length;) {
            long lba = at / size;
            int part = (int) (Math.min((lba + 1) * size, firstByte + length) - at);
            if (own.contains(lba)) {
                copy.read(at, into, (int) (offset + at - firstByte), part);
            }
            at += part;
        }
        return states; // a disputed sector was read in each view
    }

    @Override
    public ReadState state(long lba) {
        return merged.state(lba);
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        return merged.inState(state, within);
    }
}
