package sectorglass.filetest;

import java.util.List;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.image.ByteRange;

/** A file in memory, of which a range may be unread. */
record MemoryContent(byte[] data, ByteRange unread) implements Content {

    MemoryContent(byte[] data) {
        this(data, null);
    }

    @Override
    public long bytes() {
        return data.length;
    }

    @Override
    public List<Extent> extents() {
        return List.of(Extent.plain(0, data.length, 0));
    }

    @Override
    public List<ByteRange> read(long offset, byte[] into, int at, int length) {
        System.arraycopy(data, (int) offset, into, at, length);
        if (unread == null || !unread.overlaps(new ByteRange(offset, length))) {
            return List.of();
        }
        long from = Math.max(offset, unread.start());
        long end = Math.min(offset + length, unread.end());
        java.util.Arrays.fill(into, (int) (at + from - offset), (int) (at + end - offset), (byte) 0);
        return List.of(new ByteRange(from, end - from));
    }

    @Override
    public List<ByteRange> missing() {
        return unread == null ? List.of() : List.of(unread);
    }
}
