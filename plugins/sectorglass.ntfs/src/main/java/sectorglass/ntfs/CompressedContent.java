package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;

import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.disk.FileState;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorStates;

/**
 * Content of a compressed stream. Of a unit some sectors of which were not read, all that decompresses exactly is given; one that was read
 * but does not decompress is missing from the first damaged chunk on, and counts as missing once that was found by reading it. The last
 * unit is kept.
 */
final class CompressedContent extends NtfsContent {
    private final int unitBytes;
    private long cachedUnit = -1;
    private byte[] cached;
    private List<ByteRange> cachedMissing = List.of();
    /** Units that were read but do not decompress, as far as they were tried. */
    private final BitSet damaged = new BitSet();

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
        System.arraycopy(cached, inUnit, into, target, count);
        missing(unit, from, from + count, missing);
    }

    /** Adds what is missing of the unit that is kept, between two bytes of the file. */
    private void missing(long unit, long from, long to, List<ByteRange> missing) {
        for (ByteRange range : cachedMissing) {
            long first = Math.max(from, unit * unitBytes + range.start());
            ExtentContent.add(missing, first, Math.min(to, unit * unitBytes + range.end()) - first);
        }
    }

    private void load(long unit) {
        byte[] stored = new byte[unitBytes];
        cached = cached == null ? new byte[unitBytes] : cached;
        cachedUnit = unit;
        int length = 0;
        List<ByteRange> gaps = new ArrayList<>(0);
        for (Extent part : parts(unit)) {
            int count = (int) Math.min(part.stored(), unitBytes - length);
            SectorStates states = image.read(part.imageByte(), stored, length, count);
            if (!states.allRead()) {
                for (SectorRange run : states.missing(part.imageByte(), count)) {
                    long first = Math.max(0, run.first() * image.sectorSize() - part.imageByte());
                    ExtentContent.add(gaps, length + first, Math.min(count, run.end() * image.sectorSize() - part.imageByte()) - first);
                }
            }
            length += count;
        }
        cachedMissing = Lznt1.unit(stored, length, gaps.stream().flatMapToInt(g -> IntStream.of((int) g.start(), (int) g.end())).toArray(),
                cached);
        if (gaps.isEmpty() && !cachedMissing.isEmpty() && unit < Integer.MAX_VALUE) {
            damaged.set((int) unit);
        }
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
            partly(unit, missing);
        }
        return missing;
    }

    private synchronized void partly(long unit, List<ByteRange> missing) {
        boolean whole = unit >= Integer.MAX_VALUE || !damaged.get((int) unit);
        for (Extent part : parts(unit)) {
            SectorRange sectors = part.sectors(image.sectorSize());
            whole &= image.inState(ReadState.READ, sectors).containsAll(sectors);
        }
        if (!whole) {
            if (cachedUnit != unit) {
                load(unit);
            }
            missing(unit, unit * unitBytes, Math.min((unit + 1) * unitBytes, bytes()), missing);
        }
    }
}
