package sectorglass.practice.fault;

/**
 * Bytes that were changed on purpose.
 *
 * @param firstByte of the disk
 * @param right what stood there, and should stand there; not changed afterwards
 */
public record Spot(long firstByte, byte[] right) {

    /** First byte behind it. */
    public long end() {
        return firstByte + right.length;
    }

    /** Whether the byte was changed. */
    public boolean contains(long at) {
        return at >= firstByte && at < end();
    }
}
