package sectorglass.volumes;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;

/**
 * Whether the disks of a set agree: those of a mirror hold the same, those with one parity come to zero when all are put together by
 * exclusive or. Of three and more copies the one that differs from all others stands alone; one parity cannot tell which disk is wrong.
 *
 * @param disks data areas, all counted from byte 0
 * @param parity whether one of them is parity of the others
 */
record MdAgreement(List<SectorImage> disks, boolean parity, Progress progress) {
    private static final int BLOCK = 1 << 20;

    /** Compares all of it. */
    Disagreement compare(int sectorSize) {
        Disagreement found = new Disagreement(disks.size());
        long length = disks.stream().mapToLong(SectorImage::bytes).min().orElse(0);
        int block = Math.max(sectorSize, Math.min(BLOCK, (16 * BLOCK) / disks.size())) / sectorSize * sectorSize;
        byte[][] copies = new byte[parity ? 2 : disks.size()][block];
        for (long at = 0; at < length; at += block) {
            progress.checkCancelled();
            progress.at("copies", at, length);
            int part = (int) Math.min(block, length - at);
            SectorRanges open = SectorRanges.EMPTY;
            for (int i = 0; i < disks.size(); i++) {
                byte[] into = copies[parity ? Math.min(i, 1) : i];
                open = open.union(disks.get(i).read(at, into, 0, part).missing(at, part));
                if (parity && i > 0) {
                    for (int b = 0; b < part; b++) {
                        copies[0][b] ^= into[b];
                    }
                }
            }
            for (int from = 0; from < part; from += sectorSize) {
                int to = Math.min(part, from + sectorSize);
                int alone = parity ? zero(copies[0], from, to) : alone(copies, from, to);
                long sector = (at + from) / sectorSize;
                if (alone != NONE && !open.contains(sector)) {
                    found.add(sector, alone);
                }
            }
            found.unread(open);
        }
        return found;
    }

    /** All agree. */
    private static final int NONE = -2;

    private static int zero(byte[] sum, int from, int to) {
        for (int i = from; i < to; i++) {
            if (sum[i] != 0) {
                return -1;
            }
        }
        return NONE;
    }

    /** The only copy that differs from all others, -1 where there is no such one, {@link #NONE} where all are equal. */
    private static int alone(byte[][] copies, int from, int to) {
        List<Integer> unlike = new ArrayList<>();
        for (int i = 1; i < copies.length; i++) {
            if (!Arrays.equals(copies[0], from, to, copies[i], from, to)) {
                unlike.add(i);
            }
        }
        if (unlike.isEmpty()) {
            return NONE;
        }
        if (copies.length < 3 || unlike.size() > 1 && unlike.size() < copies.length - 1) {
            return -1;
        }
        if (unlike.size() == 1) {
            return unlike.get(0);
        }
        for (int i = 2; i < copies.length; i++) {
            if (!Arrays.equals(copies[1], from, to, copies[i], from, to)) {
                return -1;
            }
        }
        return 0;
    }
}
