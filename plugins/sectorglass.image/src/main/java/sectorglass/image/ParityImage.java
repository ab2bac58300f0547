package sectorglass.image;

import java.util.Arrays;
import java.util.List;

/**
 * What a disk of a set with parity must hold: the exclusive or of others, each byte of them multiplied by a factor of their disk where
 * the set has two parities. A sector counts as read only where it was read from every one of those disks. All disks are counted from
 * the same byte.
 */
public final class ParityImage implements SectorImage {
    private static final int PART = 1 << 20;

    private final String name;
    private final List<SectorImage> others;
    private final byte[][] products;

    /** @param others all disks of the set but this one, at least one; a missing one makes everything unread */
    public ParityImage(String name, List<SectorImage> others) {
        this(name, others, new byte[others.size()][]);
    }

    /**
     * With factors.
     *
     * @param others disks that the missing one is computed from, at least one
     * @param products for each of them the 256 products of a byte with the disk's factor, or null where the factor is one
     */
    public ParityImage(String name, List<SectorImage> others, byte[][] products) {
        if (others.isEmpty() || products.length != others.size()) {
            throw new IllegalArgumentException(others.size() + " disks, " + products.length + " factors");
        }
        this.name = name;
        this.others = List.copyOf(others);
        this.products = products.clone();
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
            for (int disk = 0; disk < others.size(); disk++) {
                missing = missing.union(others.get(disk).read(firstByte + done, other, 0, part).missing(firstByte + done, part));
                add(other, part, products[disk], into, offset + done);
            }
        }
        return SectorStates.allRead(sectorSize(), firstByte, length).with(missing, ReadState.UNREAD);
    }

    private static void add(byte[] from, int length, byte[] products, byte[] into, int offset) {
        for (int i = 0; i < length; i++) {
            into[offset + i] ^= products == null ? from[i] : products[from[i] & 0xFF];
        }
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
