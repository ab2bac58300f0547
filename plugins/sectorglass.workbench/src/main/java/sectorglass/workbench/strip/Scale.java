package sectorglass.workbench.strip;

import java.util.ArrayList;
import java.util.List;

/** Maps sectors to pixels, piece by piece: in proportion, but no piece narrower than can be read. */
final class Scale {
    private final List<Piece> pieces;
    /** Left edge of each piece, and the right edge of the last one. */
    private final double[] x;

    private Scale(List<Piece> pieces, double[] x) {
        this.pieces = pieces;
        this.x = x;
    }

    /**
     * The scale of a stretch of the disk.
     *
     * @param all all pieces of the disk by address
     * @param first first LBA seen
     * @param end first LBA not seen
     * @param width pixels there are
     * @param leastPartition narrowest partition, pixels
     * @param leastGap narrowest gap, pixels
     */
    static Scale of(List<Piece> all, long first, long end, int width, int leastPartition, int leastGap) {
        List<Piece> seen = new ArrayList<>();
        for (Piece piece : all) {
            long from = Math.max(first, piece.first());
            long to = Math.min(end, piece.end());
            if (to > from) {
                seen.add(new Piece(from, to, piece.partition(), piece.number()));
            }
        }
        double[] wide = new double[seen.size()];
        boolean[] fixed = new boolean[seen.size()];
        double least = 0;
        for (Piece piece : seen) {
            least += piece.partition() == null ? leastGap : leastPartition;
        }
        double shrink = least > width ? width / least : 1;
        boolean changed = true;
        while (changed) {
            changed = false;
            double room = width;
            double sectors = 0;
            for (int i = 0; i < wide.length; i++) {
                if (fixed[i]) {
                    room -= wide[i];
                } else {
                    sectors += seen.get(i).sectors();
                }
            }
            for (int i = 0; i < wide.length; i++) {
                if (!fixed[i]) {
                    double minimum = (seen.get(i).partition() == null ? leastGap : leastPartition) * shrink;
                    wide[i] = room * seen.get(i).sectors() / sectors;
                    if (wide[i] < minimum) {
                        wide[i] = minimum;
                        fixed[i] = true;
                        changed = true;
                    }
                }
            }
        }
        double[] x = new double[wide.length + 1];
        for (int i = 0; i < wide.length; i++) {
            x[i + 1] = x[i] + wide[i];
        }
        return new Scale(seen, x);
    }

    List<Piece> pieces() {
        return pieces;
    }

    double left(int piece) {
        return x[piece];
    }

    double right(int piece) {
        return x[piece + 1];
    }

    /** Where a sector begins; sectors out of view lie at the nearer edge. */
    double x(long lba) {
        for (int i = 0; i < pieces.size(); i++) {
            Piece piece = pieces.get(i);
            if (lba < piece.first()) {
                return x[i];
            }
            if (lba < piece.end()) {
                return x[i] + (x[i + 1] - x[i]) * ((double) (lba - piece.first()) / piece.sectors());
            }
        }
        return x[x.length - 1];
    }

    /** The sector at a pixel. */
    long lba(double at) {
        for (int i = 0; i < pieces.size(); i++) {
            if (at < x[i + 1]) {
                Piece piece = pieces.get(i);
                double share = Math.max(0, at - x[i]) / (x[i + 1] - x[i]);
                return Math.min(piece.end() - 1, piece.first() + (long) (share * piece.sectors()));
            }
        }
        return pieces.isEmpty() ? 0 : pieces.get(pieces.size() - 1).end() - 1;
    }
}
