package sectorglass.volumes;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

import sectorglass.image.AssembledImage;
import sectorglass.image.AssembledImage.Piece;
import sectorglass.image.AssembledImage.Source;
import sectorglass.image.ParityImage;
import sectorglass.image.SectorImage;

/**
 * How chunks of a striped set are spread over its disks. Sources: md(4), section RAID0, RAID4, RAID5, RAID6, RAID10; placement of parity as in
 * the Linux kernel, drivers/md/raid5.c, raid5_compute_sector (from memory).
 */
final class StripeLayout {

    /** Where the parity of a row of chunks stands. */
    enum Parity {
        /** There is none. */
        NONE,
        /** Layout 0: moves from the last disk down; data skips it. */
        LEFT_ASYMMETRIC,
        /** Layout 1: moves from the first disk up; data skips it. */
        RIGHT_ASYMMETRIC,
        /** Layout 2: moves from the last disk down; data goes on behind it. */
        LEFT_SYMMETRIC,
        /** Layout 3: moves from the first disk up; data goes on behind it. */
        RIGHT_SYMMETRIC,
        /** Layout 4: always the first disk. */
        FIRST,
        /** Layout 5: always the last disk, as in level 4. */
        LAST;

        /** The layout of a number, or null. */
        static Parity of(long number) {
            return number >= 0 && number <= 5 ? values()[(int) number + 1] : null;
        }
    }

    private StripeLayout() {
    }

    /**
     * A striped image.
     *
     * @param disks data areas by their place in the set, all counted from byte 0; null where one is missing
     * @param diskBytes bytes of each that the set uses, a multiple of {@code chunk}
     * @param chunk bytes of a chunk, more than 0
     */
    static AssembledImage of(String name, int sectorSize, List<SectorImage> disks, long diskBytes, long chunk, Parity parity) {
        int all = disks.size();
        int data = parity == Parity.NONE ? all : all - 1;
        List<SectorImage> rebuilt = new ArrayList<>();
        for (int i = 0; i < all; i++) {
            rebuilt.add(parity == Parity.NONE ? null : others(disks, i));
        }
        return new AssembledImage(name, sectorSize, diskBytes / chunk * chunk * data, at -> {
            long number = at / chunk;
            long row = number / data;
            int disk = disk(parity, row, (int) (number % data), all);
            List<Source> sources = new ArrayList<>(2);
            if (disks.get(disk) != null) {
                sources.add(new Source(disks.get(disk), row * chunk));
            }
            if (rebuilt.get(disk) != null) {
                sources.add(new Source(rebuilt.get(disk), row * chunk));
            }
            return new Piece(number * chunk, chunk, sources);
        });
    }

    /**
     * A set with two parities (level 6).
     *
     * @param disks data areas by their place in the set, 4 to 257, all counted from byte 0; null where one is missing
     */
    static AssembledImage doubleParity(String name, int sectorSize, List<SectorImage> disks, long diskBytes, long chunk, Parity parity) {
        int all = disks.size();
        int data = all - 2;
        Map<Integer, List<SectorImage>> known = new ConcurrentHashMap<>();
        return new AssembledImage(name, sectorSize, diskBytes / chunk * chunk * data, at -> {
            long number = at / chunk;
            long row = number / data;
            int place = (int) (number % data);
            List<SectorImage> ways = known.computeIfAbsent((int) (row % all) * data + place, key -> {
                DoubleParityRow roles = DoubleParityRow.of(parity, row, all);
                return roles.sources(disks, roles.data()[place]);
            });
            return new Piece(number * chunk, chunk, ways.stream().map(image -> new Source(image, row * chunk)).toList());
        });
    }

    /** The disk that holds a data chunk of a row. */
    static int disk(Parity parity, long row, int data, int disks) {
        int down = (int) (disks - 1 - row % disks);
        int up = (int) (row % disks);
        return switch (parity) {
            case NONE, LAST -> data;
            case FIRST -> data + 1;
            case LEFT_ASYMMETRIC -> data >= down ? data + 1 : data;
            case RIGHT_ASYMMETRIC -> data >= up ? data + 1 : data;
            case LEFT_SYMMETRIC -> (down + 1 + data) % disks;
            case RIGHT_SYMMETRIC -> (up + 1 + data) % disks;
        };
    }

    private static SectorImage others(List<SectorImage> disks, int without) {
        List<SectorImage> rest = new ArrayList<>(disks);
        rest.remove(without);
        return rest.contains(null) ? null : new ParityImage("exclusive or of the other disks", rest);
    }

    /**
     * Level 10 with near copies: copies of a chunk stand on disks that follow each other.
     *
     * @param copies 2 or more, at most the number of disks
     */
    static AssembledImage near(String name, int sectorSize, List<SectorImage> disks, long diskBytes, long chunk, int copies) {
        long rows = diskBytes / chunk;
        return new AssembledImage(name, sectorSize, rows * disks.size() / copies * chunk, at -> {
            long number = at / chunk;
            List<Source> sources = new ArrayList<>(copies);
            for (int copy = 0; copy < copies; copy++) {
                long place = number * copies + copy;
                SectorImage disk = disks.get((int) (place % disks.size()));
                if (disk != null) {
                    sources.add(new Source(disk, place / disks.size() * chunk));
                }
            }
            return new Piece(number * chunk, chunk, sources);
        });
    }
}
