package sectorglass.workbench.parts;

import sectorglass.decode.FieldNode;

/** Draws the bits of a field. */
final class Bits {

    private Bits() {
    }

    /** The bits of a flag field or of a field of single bits, most significant first, in groups of four; null for other fields. */
    static String drawn(FieldNode field) {
        boolean flags = "flags".equals(field.unit());
        if (!(field.raw() instanceof Long value) || !flags && field.bits() < 0) {
            return null;
        }
        int count = field.bits() > 0 ? field.bits() : (int) Math.min(64, field.length() * 8);
        StringBuilder text = new StringBuilder();
        for (int bit = count - 1; bit >= 0; bit--) {
            text.append(value >> bit & 1);
            if (bit > 0 && bit % 4 == 0) {
                text.append(' ');
            }
        }
        return text.toString();
    }
}
