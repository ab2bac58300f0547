package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileState;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * Content of a compressed stream. A unit counts as read only if all its stored sectors were; one that was read but does not decompress
 * is missing from the first damaged chunk on. The last unit is kept.
 */
final class CompressedContent extends NtfsContent {
    private final int unitBytes;
    private long cachedUnit = -1;
    private byte[] cached;
    private int cachedGood;

    CompressedContent(SectorImage image, Geometry geometry, FileStream stream, FileState special, List<String> doubts) {
        super(image, geometry, stream, special, doubts);
        this.unitBytes = geometry.clusterBytes() << stream.unit;
    }

    @Override
    public List<ByteRange> read(long offset, byte[] into, int at, int length) {
        List<ByteRange> missing = new ArrayList<>(0);
        long end = offset + length;
        for (long from = offset; from < end;) {
            long unit = from / unitBytes;
            long to = Math.min(end, Math.min((unit + 1) * unitBytes, bytes()));
            int count = (int) (to - from);
            int target = (int) (at + from - offset);
            if (compressed(unit)) {
                copy(unit, from, into, target, count, missing);
            } else {
                for (ByteRange range : super.read(from, into, target, count)) {
                    ExtentContent.add(missing, range.start(), range.length());
                }
            }
            from = to;
        }
        return missing;
    }

    private synchronized void copy(long unit, long from, byte[] into, int target, int count, List<ByteRange> missing) {
        if (cachedUnit != unit) {
            load(unit);
        }
        int inUnit = (int) (from - unit * unitBytes);
        int good = Math.max(0, Math.min(count, cachedGood - inUnit));
        System.arraycopy(cached, inUnit, into, target, good);
        java.util.Arrays.fill(into, target + good, target + count, (byte) 0);
        ExtentContent.add(missing, from + good, count - good);
    }

    private void load(long unit) {
        byte[] stored = new byte[unitBytes];
        cached = cached == null ? new byte[unitBytes] : cached;
        cachedUnit = unit;
        cachedGood = 0;
        int length = 0;
        for (Extent part : parts(unit)) {
            if (part.stored() > unitBytes - length) {
                return;
            }
            SectorStates states = image.read(part.imageByte(), stored, length, (int) part.stored());
            if (!states.isRead(part.imageByte(), part.stored())) {
                return;
            }
            length += (int) part.stored();
        }
        cachedGood = Lznt1.unit(stored, length, cached);
    }

    private boolean compressed(long unit) {
        int i = at(unit * unitBytes);
        return i >= 0 && extents().get(i).kind() == Extent.Kind.COMPRESSED;
    }

    /** The stored parts of a compressed unit. */
    private List<Extent> parts(long unit) {
        List<Extent> parts = new ArrayList<>(1);
        for (int i = at(unit * unitBytes); i < extents().size() && extents().get(i).offset() < (unit + 1) * unitBytes; i++) {
            parts.add(extents().get(i));
        }
        return parts;
    }

    /** Index of the piece that holds the byte, or -1. */
    private int at(long offset) {
        int low = 0;
        int high = extents().size() - 1;
        while (low < high) {
            int middle = low + high + 1 >>> 1;
            if (extents().get(middle).offset() <= offset) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return high < 0 ? -1 : low;
    }

    @Override
    public List<ByteRange> missing() {
        List<ByteRange> missing = new ArrayList<>(0);
        long done = -1;
        for (int i = 0; i < extents().size(); i++) {
            Extent extent = extents().get(i);
            if (extent.kind() != Extent.Kind.COMPRESSED) {
                for (ByteRange range : new ExtentContent(image, extent.end(), List.of(extent)).missing()) {
                    if (range.end() > extent.offset()) {
                        long from = Math.max(range.start(), extent.offset());
                        ExtentContent.add(missing, from, range.end() - from);
                    }
                }
                continue;
            }
            long unit = extent.offset() / unitBytes;
            if (unit == done) {
                continue;
            }
            done = unit;
            for (Extent part : parts(unit)) {
                if (!image.inState(sectorglass.image.ReadState.READ, part.sectors(image.sectorSize()))
                        .containsAll(part.sectors(image.sectorSize()))) {
                    ExtentContent.add(missing, unit * unitBytes, Math.min((unit + 1) * unitBytes, bytes()) - unit * unitBytes);
                    break;
                }
            }
        }
        return missing;
    }
}
