package sectorglass.image.store;

import java.io.Closeable;

/** Bytes under an image by 64-bit position. Safe for use by several threads; reading never throws because a file failed. */
public interface StoredBytes extends Closeable {

    /** Number of bytes. */
    long length();

    /**
     * Reads bytes. All of them get a value: what could not be delivered is zero and told to {@code faults}.
     *
     * @param at position of the first byte; {@code at + length} must not exceed {@link #length()} as it was when asked
     * @param into receives the bytes from index {@code offset}
     */
    void read(long at, byte[] into, int offset, int length, Faults faults);

    /** Closes the files. */
    @Override
    void close();
}
