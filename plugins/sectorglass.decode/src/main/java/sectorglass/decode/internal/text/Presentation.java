package sectorglass.decode.internal.text;

import sectorglass.decode.FieldNode;

/** How the values of a field are shown, from its own keys. */
public interface Presentation {
    /** No keys. */
    Presentation PLAIN = new KeyedPresentation(null, null, null, null, null);

    /** The value in the trade's form; null gives a dash. */
    String value(Object raw, boolean unsigned, EnumTable table);

    /** What it means, or null. */
    String meaning(Object raw, boolean unsigned, EnumTable table);

    /** Text of a value that is a structure, an array or a stream. */
    String other(Object value);

    /** The unit, or null. */
    String unit();

    /** Where a number points, or null. */
    FieldNode.Link link(long value);
}
