package sectorglass.tests;

import java.util.Random;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** An image with some sectors marked unread; whoever looks at their bytes all the same meets noise. */
final class MaskedImage implements SectorImage {
    private final SectorImage base;
    private final SectorRanges masked;
    private final long seed;

    MaskedImage(SectorImage base, SectorRanges masked, long seed) {
        this.base = base;
        this.masked = masked;
        this.seed = seed;
    }

    @Override
    public String name() {
        return base.name() + " masked " + masked;
    }

    @Override
    public int sectorSize() {
        return base.sectorSize();
    }

    @Override
    public long bytes() {
        return base.bytes();
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        SectorStates states = base.read(firstByte, into, offset, length);
        int size = sectorSize();
        SectorRange asked = new sectorglass.image.ByteRange(firstByte, length).sectors(size);
        for (SectorRange run : masked.intersect(asked)) {
            for (long lba = run.first(); lba < run.end(); lba++) {
                Random noise = new Random(seed ^ lba);
                for (int i = 0; i < size; i++) {
                    long at = lba * size + i - firstByte;
                    byte value = (byte) noise.nextInt(256);
                    if (at >= 0 && at < length) {
                        into[(int) (offset + at)] = value;
                    }
                }
            }
        }
        return states.with(masked, ReadState.UNREAD);
    }

    @Override
    public ReadState state(long lba) {
        return masked.contains(lba) ? ReadState.UNREAD : base.state(lba);
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges below = base.inState(state, within);
        return state == ReadState.UNREAD ? below.union(masked.intersect(within)) : below.minus(masked);
    }
}
