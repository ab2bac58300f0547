package sectorglass.recovery;

import java.util.Arrays;
import java.util.OptionalLong;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * Where two stretches of bytes differ, of two images or of one. Only bytes that were read on both sides are compared: what one side
 * does not know is no difference. Memory is constant.
 *
 * @param left one image
 * @param leftStart its first byte
 * @param right the other image, or the same
 * @param rightStart its first byte
 * @param length bytes compared
 */
public record Differences(SectorImage left, long leftStart, SectorImage right, long rightStart, long length) {
    private static final int CHUNK = 1 << 20;

    /** @throws IllegalArgumentException for a negative place, or one whose end a long cannot count */
    public Differences {
        if (leftStart < 0 || rightStart < 0 || length < 0 || Math.max(leftStart, rightStart) > Long.MAX_VALUE - length) {
            throw new IllegalArgumentException("leftStart=" + leftStart + " rightStart=" + rightStart + " length=" + length);
        }
    }

    /**
     * How much differs.
     *
     * @param different bytes that differ
     * @param runs stretches of such bytes
     * @param unknown bytes that were not read on both sides
     */
    public record Count(long different, long runs, long unknown) { }

    /** What is known of a byte on both sides. */
    public enum Sameness { SAME, DIFFERENT, UNKNOWN }

    /** Compares bytes that lie in memory, each with a mark whether it was read. */
    public static Sameness of(byte one, boolean oneRead, byte other, boolean otherRead) {
        return !oneRead || !otherRead ? Sameness.UNKNOWN : one == other ? Sameness.SAME : Sameness.DIFFERENT;
    }

    /** A piece of both sides. */
    private final class Piece {
        private final long start;
        private final int count;
        private final byte[] one;
        private final byte[] other;
        private final SectorStates oneStates;
        private final SectorStates otherStates;
        private final boolean clean;
        private final boolean same;

        Piece(long start, int count, byte[] one, byte[] other) {
            this.start = start;
            this.count = count;
            this.one = one;
            this.other = other;
            oneStates = left.read(leftStart + start, one, 0, count);
            otherStates = right.read(rightStart + start, other, 0, count);
            clean = oneStates.allRead() && otherStates.allRead();
            same = clean && Arrays.mismatch(one, 0, count, other, 0, count) < 0;
        }

        boolean known(int index) {
            return clean || oneStates.isRead(leftStart + start + index, 1) && otherStates.isRead(rightStart + start + index, 1);
        }

        boolean differs(int index) {
            return one[index] != other[index] && known(index);
        }
    }

    /** Offset of the first byte of the next stretch that differs, behind the stretch that holds {@code from} if there is one. */
    public OptionalLong next(long from, Progress progress) {
        byte[] one = new byte[CHUNK];
        byte[] other = new byte[CHUNK];
        boolean before = from >= 0;
        for (long at = Math.max(0, from); at < length; at += CHUNK) {
            progress.checkCancelled();
            progress.at("comparing", at, length);
            Piece piece = new Piece(at, (int) Math.min(CHUNK, length - at), one, other);
            if (piece.same) {
                before = false;
                continue;
            }
            for (int i = 0; i < piece.count; i++) {
                boolean here = piece.differs(i);
                if (here && !before) {
                    return OptionalLong.of(at + i);
                }
                before = here;
            }
        }
        return OptionalLong.empty();
    }

    /** Offset of the first byte of the last stretch that differs and begins before {@code from}. */
    public OptionalLong previous(long from, Progress progress) {
        byte[] one = new byte[CHUNK + 1];
        byte[] other = new byte[CHUNK + 1];
        for (long end = Math.min(from, length); end > 0; end -= Math.min(CHUNK, end)) {
            progress.checkCancelled();
            progress.at("comparing", length - end, length);
            long begin = Math.max(0, end - CHUNK);
            long at = Math.max(0, begin - 1);
            Piece piece = new Piece(at, (int) (end - at), one, other);
            for (int i = piece.same ? -1 : piece.count - 1; at + i >= begin; i--) {
                if (piece.differs(i) && (i == 0 || !piece.differs(i - 1))) {
                    return OptionalLong.of(at + i);
                }
            }
        }
        return OptionalLong.empty();
    }

    /** Counts what differs. */
    public Count count(Progress progress) {
        byte[] one = new byte[CHUNK];
        byte[] other = new byte[CHUNK];
        long different = 0;
        long runs = 0;
        long unknown = 0;
        boolean before = false;
        for (long at = 0; at < length; at += CHUNK) {
            progress.checkCancelled();
            progress.at("comparing", at, length);
            Piece piece = new Piece(at, (int) Math.min(CHUNK, length - at), one, other);
            for (int i = 0; i < piece.count && !piece.same; i++) {
                boolean known = piece.known(i);
                boolean here = known && one[i] != other[i];
                unknown += known ? 0 : 1;
                different += here ? 1 : 0;
                runs += here && !before ? 1 : 0;
                before = here;
            }
            before &= !piece.same;
        }
        return new Count(different, runs, unknown);
    }
}
