package sectorglass.volumes;

import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;

/**
 * Whether both parities of a level 6 set fit its data, and which disk is wrong where one alone is. Source: H. P. Anvin, "The mathematics
 * of RAID-6", section 4.
 *
 * @param disks data areas by place, all counted from byte 0
 * @param chunk bytes of a chunk
 * @param parity the layout
 */
record DoubleParityCheck(List<SectorImage> disks, long chunk, StripeLayout.Parity parity, Progress progress) {
    private static final int BLOCK = 1 << 18;
    private static final int NONE = -2;

    /** Compares all of it. */
    Disagreement compare(int sectorSize) {
        int all = disks.size();
        Disagreement found = new Disagreement(all);
        long length = disks.stream().mapToLong(SectorImage::bytes).min().orElse(0) / chunk * chunk;
        int block = (int) Math.min(chunk, BLOCK / sectorSize * sectorSize);
        byte[] plain = new byte[block];
        byte[] weighted = new byte[block];
        byte[] one = new byte[block];
        for (long at = 0; at < length;) {
            progress.checkCancelled();
            progress.at("copies", at, length);
            int part = (int) Math.min(block, chunk - at % chunk);
            DoubleParityRow roles = DoubleParityRow.of(parity, at / chunk, all);
            java.util.Arrays.fill(plain, (byte) 0);
            java.util.Arrays.fill(weighted, (byte) 0);
            SectorRanges open = SectorRanges.EMPTY;
            for (int i = 0; i < all; i++) {
                open = open.union(disks.get(i).read(at, one, 0, part).missing(at, part));
                if (i != roles.second()) {
                    add(one, null, plain, part);
                }
                if (i != roles.first()) {
                    add(one, i == roles.second() ? null : ParityField.products(ParityField.power(roles.number()[i])), weighted, part);
                }
            }
            for (int from = 0; from < part; from += sectorSize) {
                int wrong = wrong(plain, weighted, from, Math.min(part, from + sectorSize), roles);
                long sector = (at + from) / sectorSize;
                if (wrong != NONE && !open.contains(sector)) {
                    found.add(sector, wrong);
                }
            }
            found.unread(open);
            at += part;
        }
        return found;
    }

    private static void add(byte[] from, byte[] products, byte[] into, int length) {
        for (int i = 0; i < length; i++) {
            into[i] ^= products == null ? from[i] : products[from[i] & 0xFF];
        }
    }

    /** The disk that all wrong bytes of a sector point at, -1 where they point at several, {@link #NONE} where nothing is wrong. */
    private static int wrong(byte[] plain, byte[] weighted, int from, int to, DoubleParityRow roles) {
        int wrong = NONE;
        for (int i = from; i < to; i++) {
            int p = plain[i] & 0xFF;
            int q = weighted[i] & 0xFF;
            if (p == 0 && q == 0) {
                continue;
            }
            int disk = p == 0 ? roles.second() : q == 0 ? roles.first() : with(roles, ParityField.logarithm(ParityField.divide(q, p)));
            if (disk < 0 || wrong >= 0 && wrong != disk) {
                return -1;
            }
            wrong = disk;
        }
        return wrong;
    }

    private static int with(DoubleParityRow roles, int number) {
        for (int i = 0; i < roles.number().length; i++) {
            if (roles.number()[i] == number) {
                return i;
            }
        }
        return -1;
    }
}
