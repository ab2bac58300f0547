package sectorglass.make;

import java.io.IOException;
import java.util.Objects;

/** A part of a medium, held to its borders. */
final class MediumPart implements Medium {
    private final Medium whole;
    private final long first;
    private final long length;

    MediumPart(Medium whole, long first, long length) {
        Objects.checkFromIndexSize(first, length, whole.bytes());
        this.whole = whole;
        this.first = first;
        this.length = length;
    }

    @Override
    public long bytes() {
        return length;
    }

    @Override
    public void read(long at, byte[] into, int offset, int count) throws IOException {
        Objects.checkFromIndexSize(at, count, length);
        whole.read(first + at, into, offset, count);
    }

    @Override
    public void write(long at, byte[] from, int offset, int count) throws IOException {
        Objects.checkFromIndexSize(at, count, length);
        whole.write(first + at, from, offset, count);
    }
}
