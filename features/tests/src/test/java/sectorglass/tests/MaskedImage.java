package sectorglass.tests;

import java.util.Arrays;
import java.util.Random;

import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/**
 * An image with some sectors filled with something else. Marked unread, whoever looks at their bytes all the same meets the filler;
 * left read, they are another disk that differs from the first in these sectors only.
 */
final class MaskedImage implements SectorImage {
    private final SectorImage base;
    private final SectorRanges masked;
    private final boolean unread;
    private final Filling filling;

    /** What stands in the sectors. */
    @FunctionalInterface
    interface Filling {
        /** Changes a sector's true bytes. */
        void fill(long lba, byte[] sector);

        /** Noise of a seed, another in each sector. */
        static Filling noise(long seed) {
            return (lba, sector) -> new Random(seed ^ lba * 0x9E3779B97F4A7C15L).nextBytes(sector);
        }

        /** One byte all over. */
        static Filling of(int value) {
            return (lba, sector) -> Arrays.fill(sector, (byte) value);
        }

        /** Other bytes everywhere but in the last two, which some structures use to tell whether the sector belongs to them. */
        static Filling inner(long seed) {
            return (lba, sector) -> {
                byte[] end = Arrays.copyOfRange(sector, sector.length - 2, sector.length);
                flips(seed, 60).fill(lba, sector);
                System.arraycopy(end, 0, sector, sector.length - 2, 2);
            };
        }

        /** The same bytes, moved round. */
        static Filling shifted(int by) {
            return (lba, sector) -> {
                byte[] before = sector.clone();
                for (int i = 0; i < sector.length; i++) {
                    sector[i] = before[Math.floorMod(i - by, sector.length)];
                }
            };
        }

        /** Some bytes become others; the rest stays. */
        static Filling flips(long seed, int count) {
            return (lba, sector) -> {
                Random random = new Random(seed ^ lba);
                for (int i = 0; i < count; i++) {
                    sector[random.nextInt(sector.length)] ^= (byte) (1 << random.nextInt(8));
                }
            };
        }
    }

    private MaskedImage(SectorImage base, SectorRanges masked, boolean unread, Filling filling) {
        this.base = base;
        this.masked = masked;
        this.unread = unread;
        this.filling = filling;
    }

    /** The image with sectors marked unread. */
    static MaskedImage unread(SectorImage base, SectorRanges masked, Filling filling) {
        return new MaskedImage(base, masked, true, filling);
    }

    /** An image that has other bytes in these sectors. */
    static MaskedImage other(SectorImage base, SectorRanges changed, Filling filling) {
        return new MaskedImage(base, changed, false, filling);
    }

    @Override
    public String name() {
        return base.name();
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
        SectorRange asked = new ByteRange(firstByte, length).sectors(size);
        for (SectorRange run : masked.intersect(asked)) {
            for (long lba = run.first(); lba < run.end(); lba++) {
                byte[] sector = new byte[size];
                base.read(lba * size, sector, 0, size);
                filling.fill(lba, sector);
                long from = Math.max(firstByte, lba * size);
                long to = Math.min(firstByte + length, (lba + 1) * size);
                System.arraycopy(sector, (int) (from - lba * size), into, (int) (offset + from - firstByte), (int) (to - from));
            }
        }
        return unread ? states.with(masked, ReadState.UNREAD) : states;
    }

    @Override
    public ReadState state(long lba) {
        return unread && masked.contains(lba) ? ReadState.UNREAD : base.state(lba);
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges below = base.inState(state, within);
        if (!unread) {
            return below;
        }
        return state == ReadState.UNREAD ? below.union(masked.intersect(within)) : below.minus(masked);
    }
}
