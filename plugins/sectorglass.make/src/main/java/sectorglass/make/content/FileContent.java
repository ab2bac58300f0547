package sectorglass.make.content;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;

import sectorglass.make.ContentKind;
import sectorglass.make.DataFile;
import sectorglass.make.SplitMix64;

/** Opens the content of a file to be made. */
public final class FileContent {
    /** Kinds that are built as a whole are refused beyond this size. */
    private static final long WHOLE_LIMIT = 64L << 20;

    private FileContent() {
    }

    /**
     * The content as a stream of exactly the size of the file.
     *
     * @param seed seed of the volume
     * @param path path of the file, so that no two files hold the same
     */
    public static InputStream open(DataFile file, long seed, String path) {
        long own = SplitMix64.derive(seed, "content " + path);
        return switch (file.content()) {
            case ZERO -> new Stream(file.bytes(), (into, from, count) -> java.util.Arrays.fill(into, from, from + count, (byte) 0));
            case RANDOM -> random(file.bytes(), own);
            case TEXT -> new Stream(file.bytes(), new NumberedLines(own));
            default -> {
                byte[] whole = whole(file, own);
                yield whole == null ? random(file.bytes(), own) : new ByteArrayInputStream(whole);
            }
        };
    }

    private static byte[] whole(DataFile file, long seed) {
        if (file.bytes() > WHOLE_LIMIT) {
            throw new IllegalArgumentException(file.content() + " of " + file.bytes() + " bytes; at most " + WHOLE_LIMIT);
        }
        int bytes = (int) file.bytes();
        ContentKind kind = file.content();
        return switch (kind) {
            case NOTICE -> Notice.of(bytes);
            case PNG -> bytes < 256 ? null : PngPicture.of(bytes, seed);
            case JPEG -> bytes < 2048 ? null : JpegPicture.of(bytes, seed);
            case PDF -> bytes < 1024 ? null : PdfPage.of(bytes, seed);
            case ZIP -> bytes < 512 ? null : StoredZip.of(bytes, seed);
            case WAV -> bytes < 64 ? null : WavSound.of(bytes, seed);
            default -> throw new IllegalArgumentException(kind.toString());
        };
    }

    /** A stream of bytes without a pattern. */
    static InputStream random(long bytes, long seed) {
        SplitMix64 numbers = new SplitMix64(seed);
        byte[] eight = new byte[8];
        int[] left = {0};
        return new Stream(bytes, (into, from, count) -> {
            int at = from;
            int end = from + count;
            while (at < end && left[0] > 0) {
                into[at++] = eight[8 - left[0]--];
            }
            int whole = (end - at) / 8 * 8;
            numbers.fill(into, at, whole);
            at += whole;
            if (at < end) {
                numbers.fill(eight, 0, 8);
                left[0] = 8;
                while (at < end) {
                    into[at++] = eight[8 - left[0]--];
                }
            }
        });
    }

    /** Gives the next bytes. */
    @FunctionalInterface
    interface Source {
        void next(byte[] into, int from, int count);
    }

    private static final class Stream extends InputStream {
        private final Source source;
        private long left;

        Stream(long bytes, Source source) {
            this.left = bytes;
            this.source = source;
        }

        @Override
        public int read() throws IOException {
            byte[] one = new byte[1];
            return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
        }

        @Override
        public int read(byte[] into, int from, int count) {
            if (left == 0) {
                return -1;
            }
            int now = (int) Math.min(left, count);
            source.next(into, from, now);
            left -= now;
            return now;
        }
    }
}
