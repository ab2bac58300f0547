package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileState;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;

/** Content of a stream that is resident, plain or sparse; {@link CompressedContent} does the rest. */
class NtfsContent implements Content {
    final SectorImage image;
    final Geometry geometry;
    final FileStream stream;
    private final long bytes;
    private final List<Extent> extents;
    private final Content plain;
    private final FileState special;
    private final List<String> doubts;

    /** @param special a state that holds whatever was read, or null */
    NtfsContent(SectorImage image, Geometry geometry, FileStream stream, FileState special, List<String> doubts) {
        this.image = image;
        this.geometry = geometry;
        this.stream = stream;
        this.special = special;
        this.doubts = List.copyOf(doubts);
        this.extents = StreamExtents.of(geometry, stream);
        this.bytes = stream.size();
        long known = extents.isEmpty() ? 0 : extents.get(extents.size() - 1).end();
        this.plain = new ExtentContent(image, bytes < 0 ? known : bytes, extents);
    }

    static Content of(SectorImage image, Geometry geometry, FileStream stream, FileState special, List<String> doubts) {
        return !stream.resident && stream.compressed() && stream.unit > 0 && stream.unit < 12
                ? new CompressedContent(image, geometry, stream, special, doubts)
                : new NtfsContent(image, geometry, stream, special, doubts);
    }

    @Override
    public long bytes() {
        return bytes;
    }

    @Override
    public List<Extent> extents() {
        return extents;
    }

    @Override
    public List<ByteRange> read(long offset, byte[] into, int at, int length) {
        return stream.resident ? resident(offset, into, at, length) : plain.read(offset, into, at, length);
    }

    private List<ByteRange> resident(long offset, byte[] into, int at, int length) {
        List<ByteRange> missing = new ArrayList<>(0);
        for (int i = 0; i < length; i++) {
            int from = (int) offset + i;
            boolean read = stream.valueRead == null || stream.valueRead[from];
            into[at + i] = read ? stream.value[from] : 0;
            if (!read) {
                ExtentContent.add(missing, from, 1);
            }
        }
        return missing;
    }

    @Override
    public List<ByteRange> missing() {
        if (!stream.resident) {
            return plain.missing();
        }
        return stream.valueRead == null ? List.of() : resident(0, new byte[stream.value.length], 0, stream.value.length);
    }

    @Override
    public FileState state() {
        if (special != null) {
            return special;
        }
        if (bytes < 0) {
            return FileState.UNKNOWN;
        }
        return FileState.of(bytes, readBytes());
    }

    @Override
    public List<String> doubts() {
        return doubts;
    }
}
