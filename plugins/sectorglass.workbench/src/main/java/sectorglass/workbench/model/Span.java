package sectorglass.workbench.model;

import java.util.ArrayList;
import java.util.List;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Structure;
import sectorglass.verify.Finding;

/**
 * A field as the gloss shows it: which bits of the image it holds.
 *
 * @param start first image byte
 * @param length bytes, at least 1
 * @param bit first bit in the first byte, counted in the order of the field, or -1 for whole bytes
 * @param bits number of bits, or -1 for whole bytes
 * @param node the field
 * @param structure the structure it belongs to
 * @param finding the gravest listed finding on its bytes, or null
 * @param odd every second field of a structure: neighbours are drawn in two tones
 */
public record Span(long start, long length, int bit, int bits, FieldNode node, Structure structure, Finding finding, boolean odd) {

    /** The same without its finding. */
    public Span unjudged() {
        return new Span(start, length, bit, bits, node, structure, null, odd);
    }

    /** First image byte after it. */
    public long end() {
        return start + length;
    }

    /** Where its leftmost bit stands, in bytes with a fraction for bits; digits are written with the most significant bit left. */
    public double from() {
        return pieces().get(0).from();
    }

    /**
     * The stretches of digits that it takes, from left to right. A field that is counted from the least significant bit takes the left
     * end of its first byte and the right end of its last one, so that it may be several stretches.
     */
    public List<Piece> pieces() {
        if (bits < 0) {
            return List.of(new Piece(start, end()));
        }
        if (!node.bitsFromLeast()) {
            return List.of(new Piece(start + bit / 8.0, start + (bit + bits) / 8.0));
        }
        List<Piece> pieces = new ArrayList<>();
        int skip = bit;
        int left = bits;
        for (long at = start; left > 0; at++) {
            int here = Math.min(8 - skip, left);
            double from = at + (8 - skip - here) / 8.0;
            double to = at + (8 - skip) / 8.0;
            int last = pieces.size() - 1;
            if (last >= 0 && pieces.get(last).to() == from) {
                pieces.set(last, new Piece(pieces.get(last).from(), to));
            } else {
                pieces.add(new Piece(from, to));
            }
            left -= here;
            skip = 0;
        }
        return pieces;
    }

    /**
     * A stretch of digits.
     *
     * @param from image byte where it begins, with a fraction for bits
     * @param to image byte where it ends
     */
    public record Piece(double from, double to) { }
}
