package sectorglass.exfat;

import java.util.List;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;

/** Content of a file, with what is doubtful about it. */
final class ExfatContent implements Content {

    private final ExtentContent content;
    private final List<String> doubts;

    ExfatContent(SectorImage image, long bytes, Placement placement) {
        this.content = new ExtentContent(image, bytes, placement.extents());
        this.doubts = placement.doubts();
    }

    @Override
    public long bytes() {
        return content.bytes();
    }

    @Override
    public List<Extent> extents() {
        return content.extents();
    }

    @Override
    public List<ByteRange> read(long offset, byte[] into, int at, int length) {
        return content.read(offset, into, at, length);
    }

    @Override
    public List<ByteRange> missing() {
        return content.missing();
    }

    @Override
    public List<String> doubts() {
        return doubts;
    }
}
