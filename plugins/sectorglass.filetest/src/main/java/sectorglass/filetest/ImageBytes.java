package sectorglass.filetest;

import java.io.IOException;

import javax.imageio.stream.ImageInputStreamImpl;

import sectorglass.recovery.opening.TestedFile;

/** A file under test as the image decoders want it. */
final class ImageBytes extends ImageInputStreamImpl {
    private final TestedFile file;

    ImageBytes(TestedFile file) {
        this.file = file;
    }

    @Override
    public int read() throws IOException {
        bitOffset = 0;
        if (streamPos >= file.bytes()) {
            return -1;
        }
        return file.bytes(streamPos++, 1)[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
        bitOffset = 0;
        if (streamPos >= file.bytes()) {
            return -1;
        }
        int some = (int) Math.min(length, file.bytes() - streamPos);
        file.read(streamPos, into, offset, some);
        streamPos += some;
        return some;
    }

    @Override
    public long length() {
        return file.bytes();
    }
}
