package sectorglass.volumes;

import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.verify.Outcome;

/**
 * Whether the disks of a set agree: those of a mirror hold the same, those with parity come to zero when all are put together by exclusive or.
 *
 * @param disks data areas, all counted from byte 0
 * @param parity whether one of them is parity of the others
 */
record MdAgreement(List<SectorImage> disks, boolean parity, Progress progress) {
    private static final int BLOCK = 1 << 20;

    /**
     * Compares all of it.
     *
     * @param start image byte of byte 0 of the first disk's data
     */
    Outcome outcome(long start, int sectorSize) {
        long length = disks.stream().mapToLong(SectorImage::bytes).min().orElse(0);
        byte[] first = new byte[BLOCK];
        byte[] other = new byte[BLOCK];
        SectorRanges missing = SectorRanges.EMPTY;
        long differ = 0;
        long firstDiffering = -1;
        for (long at = 0; at < length; at += BLOCK) {
            progress.checkCancelled();
            progress.at("copies", at, length);
            int part = (int) Math.min(BLOCK, length - at);
            SectorRanges open = disks.get(0).read(at, first, 0, part).missing(at, part);
            boolean[] unequal = new boolean[part / sectorSize + 1];
            for (int i = 1; i < disks.size(); i++) {
                SectorStates states = disks.get(i).read(at, other, 0, part);
                open = open.union(states.missing(at, part));
                compare(first, other, part, sectorSize, unequal);
            }
            if (parity) {
                for (int i = 0; i < part; i++) {
                    unequal[i / sectorSize] |= first[i] != 0;
                }
            }
            for (int i = 0; i * sectorSize < part; i++) {
                long sector = at / sectorSize + i;
                if (unequal[i] && !open.contains(sector)) {
                    firstDiffering = firstDiffering < 0 ? sector : firstDiffering;
                    differ++;
                }
            }
            missing = missing.union(open);
        }
        if (differ > 0) {
            return Outcome.failed(differ + " sectors", "no sector").with("sectors", differ)
                    .at(new ByteRange(start + firstDiffering * sectorSize, sectorSize));
        }
        return missing.isEmpty() ? Outcome.passed() : Outcome.unread(moved(missing, start / sectorSize));
    }

    /** With parity the first block gathers the exclusive or of all. */
    private void compare(byte[] first, byte[] other, int length, int sectorSize, boolean[] unequal) {
        if (parity) {
            for (int i = 0; i < length; i++) {
                first[i] ^= other[i];
            }
            return;
        }
        for (int from = 0; from < length; from += sectorSize) {
            int to = Math.min(length, from + sectorSize);
            unequal[from / sectorSize] |= java.util.Arrays.mismatch(first, from, to, other, from, to) >= 0;
        }
    }

    private static SectorRanges moved(SectorRanges ranges, long by) {
        SectorRanges.Builder all = new SectorRanges.Builder();
        for (SectorRange run : ranges) {
            all.add(run.first() + by, run.count());
        }
        return all.build();
    }
}
