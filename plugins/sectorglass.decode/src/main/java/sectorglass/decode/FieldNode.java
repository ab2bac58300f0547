package sectorglass.decode;

import java.util.List;

/**
 * A field as it was decoded. Immutable once the decoder has returned the tree. Texts are made when asked for.
 */
public interface FieldNode {

    /** What a node is. */
    enum Kind { STRUCT, ARRAY, VALUE }

    /** How the bytes of a field were. */
    enum State {
        /** Decoded. */
        OK,
        /** Decoded, but {@code valid} or {@code contents} of the spec does not hold. */
        VIOLATED,
        /** Its bytes, or bytes it depends on, were not read. */
        UNREAD,
        /** It reaches beyond its parent or the window; what lies inside was decoded. */
        CLIPPED;

        /** Lower case English, as in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** The spec's id of the field, snake case; an array element has its index as id. */
    String id();

    /** Path from the root: {@code partitions[1].status}. */
    String path();

    /** Name for people: the spec's {@code -label}, else its id. The standard's own spelling. */
    String label();

    /** What the node is. */
    Kind kind();

    /** The node this one belongs to, or null for the root. */
    FieldNode parent();

    /** Fields of a struct or elements of an array in order of decoding; empty for values. */
    List<FieldNode> children();

    /** Image byte of the first byte; for a value that is only computed, that of its parent. */
    long firstByte();

    /** Bytes that hold the field; 0 for a value that is only computed. */
    long length();

    /** First bit in the first byte (counted from 0 in the order of {@link #bitsFromLeast()}), or -1 for whole bytes. */
    int bit();

    /**
     * Whether bits are counted from the least significant one of each byte ({@code bit-endian: le}), so that the field takes the high
     * bits of its first byte and the low bits of its last one; otherwise from the most significant one.
     */
    boolean bitsFromLeast();

    /** Number of bits, or -1 for whole bytes. */
    int bits();

    /** Offset of the field from the start of the decoded window, in bytes. */
    long offset();

    /** How its bytes were. */
    State state();

    /** What is wrong or missing, in words, or null: "depends on value_offset (not read)". */
    String problem();

    /** The value that {@code contents} or {@code valid} asks for, as text, or null. */
    String expected();

    /** The decoded value: {@link Long} (u8 as its bits), {@link Double}, {@link Boolean}, {@link String}, {@code byte[]}, or null. */
    Object raw();

    /** The value as text in the trade's form: numbers grouped or hex as the spec's unit says, text, bytes as hex. */
    String value();

    /** What the value means: label of the enum member, date, size in GB and GiB, CHS with LBA; null where nothing is known. */
    String meaning();

    /** The {@code doc} of the enumeration's member that the value is, or null. */
    default String meaningDoc() {
        return null;
    }

    /** The spec's {@code doc}, or null. */
    String doc();

    /** The spec's {@code doc-ref} of the field, of its type, or of the spec: the source. */
    String docRef();

    /** The spec's {@code -unit}, or null. */
    String unit();

    /** Where the value points, or null. */
    Link link();

    /** Whether the spec's integer type is unsigned and 64 bits wide, so that {@link #raw} must be compared unsigned. */
    boolean unsigned64();

    /** Numbers that have a name in the enumeration of the field, with their words, in order; empty where it has none. */
    default java.util.Map<Long, String> choices() {
        return java.util.Map.of();
    }

    /** Whether the value is computed by the spec and holds no bytes of its own. */
    default boolean computed() {
        return length() == 0 && bits() < 0 && kind() == Kind.VALUE;
    }

    /**
     * A pointer.
     *
     * @param kind {@code lba}, {@code sector} (relative to the partition or volume), {@code cluster}, {@code record} or {@code byte}
     * @param target the value in that unit
     * @param format id of the format that stands there, or null
     */
    record Link(String kind, long target, String format) { }
}
