package sectorglass.image.store;

import java.util.Arrays;
import java.util.List;

import sectorglass.image.ReadState;

/** Pieces one after the other, some of which may be missing: their bytes are unread. */
public final class PartSequence implements StoredBytes {
    private final Piece[] pieces;
    private final long[] starts;
    private final long length;

    /**
     * A piece of the sequence.
     *
     * @param length number of bytes it stands for, not negative
     * @param file where they are, from its first byte on; null where the piece is missing. Bytes of the piece beyond its end are unread
     * @param skip first byte of the file that belongs to the piece
     */
    public record Piece(long length, StoredBytes file, long skip) { }

    /** The pieces in order. */
    public PartSequence(List<Piece> pieces) {
        this.pieces = pieces.toArray(Piece[]::new);
        this.starts = new long[this.pieces.length];
        long at = 0;
        for (int i = 0; i < starts.length; i++) {
            starts[i] = at;
            at = Math.addExact(at, this.pieces[i].length);
        }
        this.length = at;
    }

    @Override
    public long length() {
        return length;
    }

    /** Index of the piece that holds the position, which must be smaller than the length. */
    public int pieceAt(long at) {
        int found = Arrays.binarySearch(starts, at);
        int index = found >= 0 ? found : -found - 2;
        while (at >= starts[index] + pieces[index].length) {
            index++; // empty pieces share their start with the next one
        }
        return index;
    }

    /** Position of the first byte of a piece. */
    public long start(int piece) {
        return starts[piece];
    }

    @Override
    public void read(long at, byte[] into, int offset, int count, Faults faults) {
        int done = 0;
        for (int i = pieceAt(at); done < count; i++) {
            Piece piece = pieces[i];
            long within = at + done - starts[i];
            int part = (int) Math.min(count - done, piece.length - within);
            int from = done;
            int there = piece.file == null ? 0 : (int) Math.max(0, Math.min(part, piece.file.length() - piece.skip - within));
            if (there > 0) {
                piece.file.read(piece.skip + within, into, offset + done, there,
                        (first, n, state) -> faults.missing(from + first, n, state));
            }
            if (there < part) {
                Arrays.fill(into, offset + done + there, offset + done + part, (byte) 0);
                faults.missing(from + there, part - there, ReadState.UNREAD);
            }
            done += part;
        }
    }

    @Override
    public void close() {
        for (Piece piece : pieces) {
            if (piece.file != null) {
                piece.file.close();
            }
        }
    }
}
