package sectorglass.recovery.opening;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;

import sectorglass.disk.Content;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;

/** A file under test: its bytes at any place, until its time is over. For one thread. */
public final class TestedFile {
    private static final int CACHE = 1 << 16;

    private final Content content;
    private final String name;
    private final Progress progress;
    private final long deadline;
    private final byte[] cache = new byte[CACHE];
    private long cacheStart;
    private int cacheLength;

    /** Ends a test; not for a test to catch. */
    static final class End extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final transient TestResult result;

        End(TestResult result) {
            super(result.reason(), null, false, false);
            this.result = result;
        }

        TestResult result() {
            return result;
        }
    }

    /** @param seconds time until the test is over */
    TestedFile(String name, Content content, int seconds, Progress progress) {
        this.name = name;
        this.content = content;
        this.progress = progress;
        this.deadline = System.nanoTime() + seconds * 1_000_000_000L;
    }

    /** Its name. */
    public String name() {
        return name;
    }

    /** Its length. */
    public long bytes() {
        return content.bytes();
    }

    /**
     * Ends the test where its time is over or the person stopped it: every read asks, and so must every long loop between reads.
     */
    public void checkTime() {
        progress.checkCancelled();
        if (System.nanoTime() - deadline > 0) {
            throw new End(TestResult.notTested("test.time"));
        }
    }

    /**
     * Reads bytes.
     *
     * @param at first byte; at + length must not exceed {@link #bytes}
     * @throws EndOfFile if it does: the content claims bytes that the file does not have
     */
    public void read(long at, byte[] into, int offset, int length) throws IOException {
        if (at < 0 || length < 0 || at > bytes() - length) {
            throw new EndOfFile(at, length, bytes());
        }
        while (length > 0) {
            if (at < cacheStart || at >= cacheStart + cacheLength) {
                if (length >= CACHE) {
                    direct(at, into, offset, length);
                    return;
                }
                fill(at);
            }
            int from = (int) (at - cacheStart);
            int count = Math.min(length, cacheLength - from);
            System.arraycopy(cache, from, into, offset, count);
            at += count;
            offset += count;
            length -= count;
        }
    }

    private void fill(long at) {
        cacheLength = 0;
        int count = (int) Math.min(CACHE, bytes() - at);
        direct(at, cache, 0, count);
        cacheStart = at;
        cacheLength = count;
    }

    private void direct(long at, byte[] into, int offset, int length) {
        checkTime();
        List<ByteRange> missing = content.read(at, into, offset, length);
        if (!missing.isEmpty()) {
            throw new End(TestResult.damaged("test.unread", missing.get(0).start(), missing.get(0).length()));
        }
    }

    /** Some bytes; see {@link #read}. The caller bounds the length. */
    public byte[] bytes(long at, int length) throws IOException {
        byte[] some = new byte[length];
        read(at, some, 0, length);
        return some;
    }

    /** An unsigned big-endian number of 1 to 8 bytes. */
    public long big(long at, int length) throws IOException {
        byte[] some = bytes(at, length);
        long value = 0;
        for (byte b : some) {
            value = value << 8 | b & 0xFF;
        }
        return value;
    }

    /** An unsigned little-endian number of 1 to 8 bytes. */
    public long little(long at, int length) throws IOException {
        byte[] some = bytes(at, length);
        long value = 0;
        for (int i = length - 1; i >= 0; i--) {
            value = value << 8 | some[i] & 0xFF;
        }
        return value;
    }

    /** Characters as ISO 8859-1. */
    public String text(long at, int length) throws IOException {
        return new String(bytes(at, length), java.nio.charset.StandardCharsets.ISO_8859_1);
    }

    /** The bytes of a range as a stream; it ends with the range. */
    public InputStream stream(long from, long length) {
        return new InputStream() {
            private long at = from;
            private final long end = from + length;

            @Override
            public int read() throws IOException {
                byte[] one = new byte[1];
                return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
            }

            @Override
            public int read(byte[] into, int offset, int count) throws IOException {
                if (at >= end) {
                    return -1;
                }
                int some = (int) Math.min(count, end - at);
                TestedFile.this.read(at, into, offset, some);
                at += some;
                return some;
            }

            @Override
            public int available() {
                return (int) Math.min(Integer.MAX_VALUE, end - at);
            }
        };
    }

    /** All bytes as a stream. */
    public InputStream stream() {
        return stream(0, bytes());
    }

    /** The content names bytes beyond its end. */
    public static final class EndOfFile extends java.io.EOFException {
        private static final long serialVersionUID = 1L;

        EndOfFile(long at, long length, long bytes) {
            super("bytes " + at + " to " + (at + length) + " of " + bytes);
        }
    }
}
