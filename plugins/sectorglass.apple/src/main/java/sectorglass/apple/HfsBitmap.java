package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** The allocation file of HFS+: most significant bit first, 1 is used. Source: Apple TN1150, "Allocation File", by way of hfs_format.h. */
final class HfsBitmap {
    private static final int PIECE = 1 << 16;

    /** Sees a piece of the bitmap. */
    interface Piece {
        /**
         * Bits that were read.
         *
         * @param block the block of the first bit
         * @param bits bits that stand for blocks of the volume
         */
        void bits(long block, byte[] bytes, int bits, ByteRange where);
    }

    private final HfsLayout layout;
    private final HfsFork fork;

    HfsBitmap(HfsLayout layout) {
        this.layout = layout;
        this.fork = layout.allocation();
    }

    /** Whether the file has a bit for every block. */
    boolean holdsAll() {
        return fork.bytes() * 8 >= layout.blocks && fork.complete();
    }

    /** Visits every piece that was read; gives the blocks whose bits were not, and in the list the sectors of those bits. */
    List<long[]> read(Piece visitor, List<SectorRange> missing, Progress progress) {
        List<long[]> unknown = new ArrayList<>();
        long length = (layout.blocks + 7) / 8;
        for (long at = 0; at < length;) {
            progress.checkCancelled();
            progress.at("allocation file", at, length);
            int count = (int) Math.min(PIECE, length - at);
            Window w = layout.window(fork, at, count);
            if (w.isRead(0, count)) {
                visitor.bits(at * 8, w.bytes(0, count), (int) Math.min(count * 8L, layout.blocks - at * 8), w.range(0, count));
            } else {
                parts(at, w, visitor, missing, unknown);
            }
            at += count;
        }
        return unknown;
    }

    /** A piece that was read in part: sector by sector. */
    private void parts(long from, Window w, Piece visitor, List<SectorRange> missing, List<long[]> unknown) {
        int step = Math.min(512, w.sectorSize());
        for (int at = 0; at < w.length(); at += step) {
            int count = Math.min(step, w.length() - at);
            long block = (from + at) * 8;
            int bits = (int) Math.min(count * 8L, layout.blocks - block);
            if (w.isRead(at, count)) {
                visitor.bits(block, w.bytes(at, count), bits, w.range(at, count));
            } else {
                w.missing(at, count).forEach(missing::add);
                unknown.add(new long[] {block, bits});
            }
        }
    }

    /** Sectors of the file. */
    SectorRanges sectors() {
        List<SectorRange> all = new ArrayList<>();
        for (int i = 0; i < fork.starts().length; i++) {
            all.add(layout.sectors(fork.starts()[i], fork.count(i)));
        }
        return SectorRanges.of(all);
    }
}
