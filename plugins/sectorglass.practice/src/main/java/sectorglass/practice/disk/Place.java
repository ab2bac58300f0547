package sectorglass.practice.disk;

import java.util.Arrays;

/**
 * Bytes that were changed on purpose.
 *
 * @param firstByte of the image
 * @param right what should stand there; not to be changed
 * @param wrong what stands there instead; as long
 * @param aroundByte first byte of {@code around}
 * @param around what should stand there and near it, so that a whole field can be given where only a part of it was changed
 */
public record Place(long firstByte, byte[] right, byte[] wrong, long aroundByte, byte[] around) {

    /** @throws IllegalArgumentException if the parts do not fit each other */
    public Place {
        if (right.length == 0 || right.length != wrong.length || Arrays.equals(right, wrong) || aroundByte > firstByte
                || firstByte + right.length > aroundByte + around.length) {
            throw new IllegalArgumentException("a place of " + right.length + " right and " + wrong.length + " wrong bytes at " + firstByte + ", around " + aroundByte
                    + " + " + around.length);
        }
    }

    /** Whether the byte is one of them. */
    public boolean contains(long at) {
        return at >= firstByte && at - firstByte < right.length;
    }

    /** Image byte of the first one that differs. */
    public long firstDifferent() {
        return firstByte + Arrays.mismatch(right, wrong);
    }

    /** Image byte of the last one that differs. */
    public long lastDifferent() {
        int last = right.length - 1;
        while (right[last] == wrong[last]) {
            last--;
        }
        return firstByte + last;
    }

    /** Whether bytes at a place reach over all that differs. */
    public boolean covers(long at, int length) {
        return at <= firstDifferent() && at + length > lastDifferent() && at >= aroundByte;
    }

    /** Whether these bytes put it right: they reach over all that differs, and all of them are what should stand there. */
    public boolean mendedBy(long at, byte[] value) {
        return covers(at, value.length) && at + value.length <= aroundByte + around.length
                && Arrays.equals(value, Arrays.copyOfRange(around, (int) (at - aroundByte), (int) (at - aroundByte) + value.length));
    }
}
