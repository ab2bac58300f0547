package sectorglass.volumes;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ParityImage;
import sectorglass.image.SectorImage;

/**
 * Roles of the disks in one row of chunks of a level 6 set. The second parity is the sum of the data chunks, each multiplied by the
 * generator to the power of its number; numbers count on from the disk behind the second parity. Sources: Linux kernel drivers/md/raid5.c,
 * raid5_compute_sector, raid6_d0, raid6_idx_to_slot (from memory); H. P. Anvin, "The mathematics of RAID-6", sections 2 to 4.
 *
 * @param first disk with the first parity
 * @param second disk with the second parity
 * @param data disk of each data chunk of the row
 * @param number exponent of each disk; -1 for those with parity
 */
record DoubleParityRow(int first, int second, int[] data, int[] number) {
    /** Where there are more disks, a sector is rebuilt without a second unread disk only if that one is missing whole. */
    private static final int MANY = 32;

    /** @param disks 4 or more, at most 257 */
    static DoubleParityRow of(StripeLayout.Parity parity, long row, int disks) {
        int turn = (int) (row % disks);
        int first = switch (parity) {
            case LEFT_ASYMMETRIC, LEFT_SYMMETRIC -> disks - 1 - turn;
            case RIGHT_ASYMMETRIC, RIGHT_SYMMETRIC -> turn;
            case FIRST -> 0;
            default -> disks - 2;
        };
        int second = (first + 1) % disks;
        int[] data = new int[disks - 2];
        boolean goesOn = parity == StripeLayout.Parity.LEFT_SYMMETRIC || parity == StripeLayout.Parity.RIGHT_SYMMETRIC;
        for (int d = 0; d < data.length; d++) {
            int skipping = second == 0 ? d + 1 : d >= first ? d + 2 : d;
            data[d] = goesOn ? (first + 2 + d) % disks : skipping;
        }
        int[] number = new int[disks];
        int next = 0;
        for (int i = 0; i < disks; i++) {
            int disk = (second + 1 + i) % disks;
            number[disk] = disk == first || disk == second ? -1 : next++;
        }
        return new DoubleParityRow(first, second, data, number);
    }

    /**
     * The ways to the chunks of a data disk, the most direct first: itself, by either parity, by both parities without one more disk.
     *
     * @param disks data areas by place; null where one is missing
     */
    List<SectorImage> sources(List<SectorImage> disks, int disk) {
        List<SectorImage> all = new ArrayList<>();
        add(all, disks.get(disk));
        int own = ParityField.power(number[disk]);
        int[] factors = new int[disks.size()];
        for (int i = 0; i < factors.length; i++) {
            factors[i] = i == disk || i == second ? 0 : 1;
        }
        add(all, solved(disks, factors));
        for (int i = 0; i < factors.length; i++) {
            factors[i] = i == disk || i == first ? 0 : ParityField.divide(i == second ? 1 : ParityField.power(number[i]), own);
        }
        add(all, solved(disks, factors));
        for (int other : data) {
            if (other != disk && (disks.get(other) == null || disks.size() <= MANY)) {
                int otherPower = ParityField.power(number[other]);
                int divisor = own ^ otherPower;
                for (int i = 0; i < factors.length; i++) {
                    int sum = i == first ? otherPower : i == second ? 1 : ParityField.power(number[i]) ^ otherPower;
                    factors[i] = i == disk || i == other ? 0 : ParityField.divide(sum, divisor);
                }
                add(all, solved(disks, factors));
            }
        }
        return List.copyOf(all);
    }

    private static void add(List<SectorImage> all, SectorImage image) {
        if (image != null) {
            all.add(image);
        }
    }

    /** The sum of the disks times their factors; null where one of them is missing. */
    private static SectorImage solved(List<SectorImage> disks, int[] factors) {
        List<SectorImage> used = new ArrayList<>();
        List<byte[]> products = new ArrayList<>();
        for (int i = 0; i < factors.length; i++) {
            if (factors[i] != 0) {
                if (disks.get(i) == null) {
                    return null;
                }
                used.add(disks.get(i));
                products.add(ParityField.products(factors[i]));
            }
        }
        return new ParityImage("computed from the other disks", used, products.toArray(byte[][]::new));
    }
}
