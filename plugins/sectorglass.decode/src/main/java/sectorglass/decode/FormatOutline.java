package sectorglass.decode;

import java.util.List;

/**
 * What a spec says of its structure, without bytes: for reference cards. Offsets are told as far as no length before them depends on the bytes.
 *
 * @param id of the format
 * @param title for people
 * @param doc what the structure is, or null
 * @param source which standard says so, or null
 * @param parts the structure itself, then the parts that stand in it, in the order in which they are met
 */
public record FormatOutline(String id, String title, String doc, String source, List<Part> parts) {

    /**
     * A structure or a part of one.
     *
     * @param name empty for the structure itself, else the name of the part
     * @param doc what it is, or null
     * @param rows its fields
     */
    public record Part(String name, String doc, List<Row> rows) { }

    /**
     * A field.
     *
     * @param offset from the start of the part, in bytes, where it is known; else counted from the last field of unknown length, as {@code n + 4}
     * @param length in bytes, or {@code 3 bits}; an expression of the spec where the bytes decide; empty where it goes to the end
     * @param toEnd whether it goes to the end of the structure
     * @param name label of the field
     * @param part name of the part that stands here, or null
     * @param times how often it is repeated: a number, an expression, or {@code *} for as often as there is room; null for once
     * @param condition an expression of the spec, or null where it is always there
     * @param doc meaning, or null
     * @param values known values and what they mean, in order; flags by their bits
     */
    public record Row(String offset, String length, boolean toEnd, String name, String part, String times, String condition, String doc, List<Value> values) { }

    /** A value and its meaning. */
    public record Value(String value, String meaning) { }
}
