package sectorglass.workbench.pages;

import java.util.Arrays;

import sectorglass.image.ReadState;

/**
 * Bytes of an image as far as they have come.
 *
 * @param start image byte of the first one
 * @param bytes the bytes; zero where they have not come or were not read
 * @param codes per byte the ordinal of its {@link ReadState}, or {@link #COMING}
 * @param complete whether all have come
 * @param clean whether all have come and were read
 */
public record Known(long start, byte[] bytes, byte[] codes, boolean complete, boolean clean) {
    /** Code of a byte that is still being read. */
    public static final byte COMING = -1;
    /** No bytes. */
    public static final Known NOTHING = new Known(0, new byte[0], new byte[0], true, true);

    private static final ReadState[] STATES = ReadState.values();

    /** Whether the byte at this index has come and was read. */
    public boolean read(int index) {
        return codes[index] == 0;
    }

    /** Per byte whether it has come and was read. */
    public boolean[] read() {
        boolean[] read = new boolean[codes.length];
        if (clean) {
            Arrays.fill(read, true);
            return read;
        }
        for (int i = 0; i < read.length; i++) {
            read[i] = codes[i] == 0;
        }
        return read;
    }

    /** State of the byte at this index, or null while it is being read. */
    public ReadState state(int index) {
        return codes[index] == COMING ? null : STATES[codes[index]];
    }

    /** Number of bytes from this index on that have the same code, up to {@code end}. */
    public int run(int index, int end) {
        int at = index + 1;
        while (at < end && codes[at] == codes[index]) {
            at++;
        }
        return at - index;
    }
}
