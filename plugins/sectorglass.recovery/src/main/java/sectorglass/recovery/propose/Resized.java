package sectorglass.recovery.propose;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** An image looked at in sectors of another size; a sector counts as read only if all of it was. */
final class Resized implements SectorImage {
    private final SectorImage base;
    private final int size;

    Resized(SectorImage base, int size) {
        this.base = base;
        this.size = size;
    }

    @Override
    public String name() {
        return base.name();
    }

    @Override
    public int sectorSize() {
        return size;
    }

    @Override
    public long bytes() {
        return base.bytes();
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        base.read(firstByte, into, offset, length);
        long first = firstByte / size;
        long end = (firstByte + Math.max(length, 1) + size - 1) / size;
        ReadState[] states = new ReadState[(int) (end - first)];
        for (int i = 0; i < states.length; i++) {
            states[i] = state(first + i);
        }
        return SectorStates.of(size, first, states);
    }

    @Override
    public ReadState state(long lba) {
        long from = lba * size / base.sectorSize();
        long end = (lba * size + size + base.sectorSize() - 1) / base.sectorSize();
        ReadState worst = ReadState.READ;
        for (long sector = from; sector < end; sector++) {
            ReadState state = base.state(sector);
            worst = state == ReadState.READ ? worst : state;
        }
        return worst;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges.Builder builder = new SectorRanges.Builder();
        SectorRange there = new SectorRange(within.first() * size / base.sectorSize(),
                (within.count() * size + base.sectorSize() - 1) / base.sectorSize());
        for (SectorRange run : base.inState(state, there)) {
            long first = state == ReadState.READ ? (run.first() * base.sectorSize() + size - 1) / size : run.first() * base.sectorSize() / size;
            long end = state == ReadState.READ ? run.end() * base.sectorSize() / size : (run.end() * base.sectorSize() + size - 1) / size;
            if (end > first) {
                builder.add(first, end - first);
            }
        }
        return builder.build();
    }
}
