package sectorglass.image;

import java.util.Arrays;
import java.util.List;

/**
 * What a disk of a set with one parity disk must hold: the exclusive or of all the others. A sector counts as read only where it was
 * read from every other disk. All disks are counted from the same byte.
 */
public final class ParityImage implements SectorImage {
    private static final int PART = 1 << 20;

    private final String name;
    private final List<SectorImage> others;

    /** @param others all disks of the set but this one, at least one; a missing one makes everything unread */
    public ParityImage(String name, List<SectorImage> others) {
        this.name = name;
        this.others = List.copyOf(others);
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public int sectorSize() {
        return others.get(0).sectorSize();
    }

    @Override
    public long bytes() {
        return others.stream().mapToLong(SectorImage::bytes).min().orElse(0);
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        Arrays.fill(into, offset, offset + length, (byte) 0);
        byte[] other = new byte[Math.min(PART, length)];
        SectorRanges missing = SectorRanges.EMPTY;
        for (int done = 0; done < length; done += PART) {
            int part = Math.min(PART, length - done);
            for (SectorImage image : others) {
                missing = missing.union(image.read(firstByte + done, other, 0, part).missing(firstByte + done, part));
                for (int i = 0; i < part; i++) {
                    into[offset + done + i] ^= other[i];
                }
            }
        }
        return SectorStates.allRead(sectorSize(), firstByte, length).with(missing, ReadState.UNREAD);
    }

    @Override
    public ReadState state(long lba) {
        return others.stream().allMatch(image -> image.state(lba) == ReadState.READ) ? ReadState.READ : ReadState.UNREAD;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges read = SectorRanges.of(within);
        for (SectorImage image : others) {
            read = read.intersect(image.inState(ReadState.READ, within));
        }
        return state == ReadState.READ ? read : state == ReadState.UNREAD ? SectorRanges.of(within).minus(read) : SectorRanges.EMPTY;
    }
}
