package sectorglass.filetest;

import java.io.IOException;

import org.apache.pdfbox.io.RandomAccessRead;
import org.apache.pdfbox.io.RandomAccessReadView;

import sectorglass.recovery.opening.TestedFile;

/** A file under test as the PDF library wants it. */
final class PdfBytes implements RandomAccessRead {
    private final TestedFile file;
    private long at;

    PdfBytes(TestedFile file) {
        this.file = file;
    }

    @Override
    public int read() throws IOException {
        return at >= file.bytes() ? -1 : file.bytes(at++, 1)[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
        if (at >= file.bytes()) {
            return -1;
        }
        int some = (int) Math.min(length, file.bytes() - at);
        file.read(at, into, offset, some);
        at += some;
        return some;
    }

    @Override
    public long getPosition() {
        return at;
    }

    @Override
    public void seek(long to) throws IOException {
        if (to < 0) {
            throw new IOException("position " + to);
        }
        at = Math.min(to, file.bytes());
    }

    @Override
    public long length() {
        return file.bytes();
    }

    @Override
    public boolean isClosed() {
        return false;
    }

    @Override
    public boolean isEOF() {
        return at >= file.bytes();
    }

    @Override
    public RandomAccessReadView createView(long start, long length) {
        return new RandomAccessReadView(this, start, length);
    }

    @Override
    public void close() {
        // nothing is open
    }
}
