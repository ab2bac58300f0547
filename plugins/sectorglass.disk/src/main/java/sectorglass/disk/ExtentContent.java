package sectorglass.disk;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** Content that stands as it is, given by its pieces: enough for every file system that does not compress. */
public final class ExtentContent implements Content {
    private final SectorImage image;
    private final long bytes;
    private final List<Extent> extents;
    private final List<String> doubts;

    /** Content that nothing speaks against; see {@link #ExtentContent(SectorImage, long, List, List)}. */
    public ExtentContent(SectorImage image, long bytes, List<Extent> extents) {
        this(image, bytes, extents, List.of());
    }

    /**
     * @param bytes length of the stream
     * @param extents its pieces in order of the file, touching ones joined or not; places that none covers count as unknown. What lies
     *     beyond {@code bytes} is cut off. Compressed pieces are not for this class.
     * @param doubts what is doubtful about it, sentences
     */
    public ExtentContent(SectorImage image, long bytes, List<Extent> extents, List<String> doubts) {
        this.doubts = List.copyOf(doubts);
        this.image = image;
        this.bytes = bytes;
        this.extents = filled(extents, Math.max(0, bytes));
    }

    private static List<Extent> filled(List<Extent> given, long bytes) {
        List<Extent> all = new ArrayList<>(given.size());
        long at = 0;
        for (Extent e : given) {
            if (e.offset() >= bytes || e.end() <= at) {
                continue;
            }
            if (e.offset() > at) {
                all.add(Extent.unknown(at, e.offset() - at));
            }
            long from = Math.max(at, e.offset());
            long length = Math.min(bytes, e.end()) - from;
            all.add(e.imageByte() < 0 ? new Extent(e.kind(), from, length, -1, 0)
                    : new Extent(e.kind(), from, length, e.imageByte() + from - e.offset(), length));
            at = from + length;
        }
        if (at < bytes) {
            all.add(Extent.unknown(at, bytes - at));
        }
        return List.copyOf(all);
    }

    @Override
    public long bytes() {
        return bytes;
    }

    @Override
    public List<String> doubts() {
        return doubts;
    }

    @Override
    public List<Extent> extents() {
        return extents;
    }

    @Override
    public List<ByteRange> read(long offset, byte[] into, int at, int length) {
        List<ByteRange> missing = new ArrayList<>(0);
        long end = offset + length;
        for (int i = first(offset); i < extents.size() && extents.get(i).offset() < end; i++) {
            Extent e = extents.get(i);
            long from = Math.max(offset, e.offset());
            int count = (int) (Math.min(end, e.end()) - from);
            int target = (int) (at + from - offset);
            if (!e.placed()) {
                Arrays.fill(into, target, target + count, (byte) 0);
                if (e.kind() != Extent.Kind.HOLE) {
                    add(missing, from, count);
                }
                continue;
            }
            long byteInImage = e.imageByte() + from - e.offset();
            SectorStates states = image.read(byteInImage, into, target, count);
            if (!states.allRead()) {
                for (SectorRange run : states.missing(byteInImage, count)) {
                    long first = Math.max(byteInImage, run.first() * image.sectorSize());
                    long last = Math.min(byteInImage + count, run.end() * image.sectorSize());
                    Arrays.fill(into, (int) (target + first - byteInImage), (int) (target + last - byteInImage), (byte) 0);
                    add(missing, from + first - byteInImage, last - first);
                }
            }
        }
        return missing;
    }

    /** Index of the piece that holds the byte. */
    private int first(long offset) {
        int low = 0;
        int high = extents.size() - 1;
        while (low < high) {
            int middle = low + high + 1 >>> 1;
            if (extents.get(middle).offset() <= offset) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }

    @Override
    public List<ByteRange> missing() {
        List<ByteRange> missing = new ArrayList<>(0);
        for (Extent e : extents) {
            if (!e.placed()) {
                if (e.kind() != Extent.Kind.HOLE) {
                    add(missing, e.offset(), e.length());
                }
                continue;
            }
            SectorRange sectors = e.sectors(image.sectorSize());
            SectorRanges read = image.inState(ReadState.READ, sectors);
            if (read.containsAll(sectors)) {
                continue;
            }
            for (SectorRange run : SectorRanges.of(sectors).minus(read)) {
                long first = Math.max(e.imageByte(), run.first() * image.sectorSize());
                long last = Math.min(e.imageByte() + e.stored(), run.end() * image.sectorSize());
                add(missing, e.offset() + first - e.imageByte(), last - first);
            }
        }
        return missing;
    }

    /** Adds a range of the file after the others; one that touches the last is joined to it. */
    public static void add(List<ByteRange> ranges, long offset, long length) {
        if (length <= 0) {
            return;
        }
        if (!ranges.isEmpty() && ranges.get(ranges.size() - 1).end() == offset) {
            ByteRange last = ranges.remove(ranges.size() - 1);
            ranges.add(new ByteRange(last.start(), last.length() + length));
        } else {
            ranges.add(new ByteRange(offset, length));
        }
    }
}
