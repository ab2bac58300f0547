package sectorglass.report.delivery;

import java.io.IOException;
import java.util.List;

import javax.imageio.stream.ImageInputStreamImpl;

import sectorglass.disk.Content;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;

/** The bytes of a picture for a decoder, for a limited time; nothing is copied anywhere. */
final class PictureBytes extends ImageInputStreamImpl {
    private static final long NANOSECONDS = 20_000_000_000L;

    private final Content content;
    private final Progress progress;
    private final long begun = System.nanoTime();

    PictureBytes(Content content, Progress progress) {
        this.content = content;
        this.progress = progress;
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
        bitOffset = 0;
        if (streamPos >= content.bytes()) {
            return -1;
        }
        progress.checkCancelled();
        if (System.nanoTime() - begun > NANOSECONDS) {
            throw new IOException("takes too long");
        }
        int some = (int) Math.min(length, content.bytes() - streamPos);
        List<ByteRange> missing = content.read(streamPos, into, offset, some);
        if (!missing.isEmpty()) {
            throw new IOException("not read: " + missing.get(0));
        }
        streamPos += some;
        return some;
    }

    @Override
    public long length() {
        return content.bytes();
    }
}
