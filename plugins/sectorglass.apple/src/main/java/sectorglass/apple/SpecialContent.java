package sectorglass.apple;

import java.util.List;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileState;
import sectorglass.image.ByteRange;

/** Bytes that are no use as they stand, whatever was read of them: ciphertext. */
record SpecialContent(Content stored, FileState state) implements Content {

    @Override
    public long bytes() {
        return stored.bytes();
    }

    @Override
    public List<Extent> extents() {
        return stored.extents();
    }

    @Override
    public List<ByteRange> read(long offset, byte[] into, int at, int length) {
        return stored.read(offset, into, at, length);
    }

    @Override
    public List<ByteRange> missing() {
        return stored.missing();
    }
}
