package sectorglass.workbench.model;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Structure;
import sectorglass.verify.Finding;

/**
 * A field as the gloss shows it: which bits of the image it holds.
 *
 * @param start first image byte
 * @param length bytes, at least 1
 * @param bit first bit in the first byte counted from the left, or -1 for whole bytes
 * @param bits number of bits, or -1 for whole bytes
 * @param node the field
 * @param structure the structure it belongs to
 * @param finding the gravest listed finding on its bytes, or null
 * @param odd every second field of a structure: neighbours are drawn in two tones
 */
public record Span(long start, long length, int bit, int bits, FieldNode node, Structure structure, Finding finding, boolean odd) {

    /** First image byte after it. */
    public long end() {
        return start + length;
    }

    /** Where it begins, in bytes with a fraction for bits. */
    public double from() {
        return bits < 0 ? start : start + bit / 8.0;
    }

    /** Where it ends, in bytes with a fraction for bits. */
    public double to() {
        return bits < 0 ? end() : start + (bit + bits) / 8.0;
    }
}
