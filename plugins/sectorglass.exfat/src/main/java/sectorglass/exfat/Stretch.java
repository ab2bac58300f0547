package sectorglass.exfat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/** The bytes of a structure whose pieces may lie apart: offsets of the structure on one side, image bytes on the other. Immutable. */
final class Stretch {

    private final SectorImage image;
    private final long[] offsets;
    private final long[] starts;
    private final long length;

    private Stretch(SectorImage image, long[] offsets, long[] starts, long length) {
        this.image = image;
        this.offsets = offsets;
        this.starts = starts;
        this.length = length;
    }

    /** One piece, by its byte from the start of the volume. */
    static Stretch of(VolumeSite site, long at, long length) {
        return new Stretch(site.image(), new long[] {0}, new long[] {site.firstByte() + at}, length);
    }

    /** The first bytes of a chain; shorter where the chain is. */
    static Stretch of(VolumeSite site, Geometry geometry, Chain chain, long length) {
        long[] offsets = new long[chain.runs()];
        long[] starts = new long[chain.runs()];
        long at = 0;
        for (int i = 0; i < chain.runs(); i++) {
            offsets[i] = at;
            starts[i] = site.firstByte() + geometry.clusterByte(chain.first(i));
            at += chain.count(i) * geometry.clusterBytes();
        }
        return new Stretch(site.image(), offsets, starts, Math.min(length, at));
    }

    long length() {
        return length;
    }

    private int piece(long offset) {
        int found = Arrays.binarySearch(offsets, offset);
        return found >= 0 ? found : -found - 2;
    }

    private long pieceEnd(int piece) {
        return piece + 1 < offsets.length ? offsets[piece + 1] : Math.max(length, offsets[piece]);
    }

    /** Image byte of an offset. */
    long address(long offset) {
        int piece = piece(offset);
        return starts[piece] + offset - offsets[piece];
    }

    /** Offset of an image byte, or -1. */
    long offsetOf(long imageByte) {
        for (int i = 0; i < offsets.length; i++) {
            if (imageByte >= starts[i] && imageByte - starts[i] < pieceEnd(i) - offsets[i]) {
                return offsets[i] + imageByte - starts[i];
            }
        }
        return -1;
    }

    /** The image bytes of a field; where it lies on two pieces, its part on the first. */
    ByteRange where(long offset, long count) {
        int piece = piece(offset);
        return new ByteRange(address(offset), Math.min(count, pieceEnd(piece) - offset));
    }

    /** The image bytes of these offsets, piece by piece. */
    List<ByteRange> pieces(long offset, long count) {
        List<ByteRange> all = new ArrayList<>();
        for (long at = offset; at < offset + count;) {
            ByteRange here = where(at, offset + count - at);
            if (here.length() == 0) {
                break;
            }
            all.add(here);
            at += here.length();
        }
        return all;
    }

    /**
     * Reads bytes.
     *
     * @return a bit for each byte from {@code offset} on that was not read, or null where all were
     */
    BitSet read(long offset, byte[] into, int count) {
        BitSet gaps = null;
        int done = 0;
        while (done < count) {
            int piece = piece(offset + done);
            int part = (int) Math.min(count - done, pieceEnd(piece) - offset - done);
            if (part <= 0) {
                break;
            }
            long start = address(offset + done);
            SectorStates states = image.read(start, into, done, part);
            if (!states.isRead(start, part)) {
                gaps = gaps == null ? new BitSet() : gaps;
                mark(gaps, states, start, part, done);
            }
            done += part;
        }
        return gaps;
    }

    private static void mark(BitSet gaps, SectorStates states, long start, int part, int done) {
        int size = states.sectorSize();
        states.missing(start, part).forEach(run -> gaps.set(done + (int) Math.max(0, run.first() * size - start),
                done + (int) Math.min(part, run.end() * size - start)));
    }

    /** The sectors under these bytes that were not read. */
    SectorRanges missing(long offset, long count) {
        SectorRanges all = SectorRanges.EMPTY;
        for (ByteRange piece : pieces(offset, count)) {
            SectorRange run = piece.sectors(image.sectorSize());
            SectorRanges gap = SectorRanges.of(run).minus(image.inState(ReadState.READ, run));
            all = all.isEmpty() ? gap : all.union(gap);
        }
        return all;
    }

    /** A window of these bytes. */
    Window window(long offset, int count) {
        return Window.joined(pieces(offset, count).stream().map(p -> image.window(p.start(), (int) p.length())).toList());
    }
}
