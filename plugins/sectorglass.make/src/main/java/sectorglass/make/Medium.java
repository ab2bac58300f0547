package sectorglass.make;

import java.io.IOException;

/** Bytes that are being made: random access by 64-bit byte address. Bytes never written are zero. Not for several threads. */
public interface Medium {

    /** Size in bytes. */
    long bytes();

    /**
     * Copies bytes out.
     *
     * @throws IndexOutOfBoundsException if the range leaves the medium
     * @throws IOException if the file cannot be read
     */
    void read(long at, byte[] into, int offset, int length) throws IOException;

    /**
     * Copies bytes in.
     *
     * @throws IndexOutOfBoundsException if the range leaves the medium
     * @throws IOException if the file cannot be written
     */
    void write(long at, byte[] from, int offset, int length) throws IOException;

    /** Writes a whole array. */
    default void write(long at, byte[] from) throws IOException {
        write(at, from, 0, from.length);
    }

    /** Some bytes as a new array. */
    default byte[] read(long at, int length) throws IOException {
        byte[] bytes = new byte[length];
        read(at, bytes, 0, length);
        return bytes;
    }

    /**
     * A part of this medium, its first byte being byte 0 of the part.
     *
     * @throws IndexOutOfBoundsException if it leaves this medium
     */
    default Medium part(long first, long length) {
        return new MediumPart(this, first, length);
    }
}
