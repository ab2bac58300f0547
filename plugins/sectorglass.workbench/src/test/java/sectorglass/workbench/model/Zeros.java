package sectorglass.workbench.model;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** An image of zeros, for tests. */
public record Zeros(long bytes) implements SectorImage {

    @Override
    public String name() {
        return "zeros";
    }

    @Override
    public int sectorSize() {
        return 512;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        return SectorStates.allRead(512, firstByte, length);
    }

    @Override
    public ReadState state(long lba) {
        return lba < sectors() ? ReadState.READ : ReadState.UNREAD;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        return state == ReadState.READ ? SectorRanges.of(within) : SectorRanges.EMPTY;
    }
}
