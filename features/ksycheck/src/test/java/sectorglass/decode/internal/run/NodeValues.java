package sectorglass.decode.internal.run;

import sectorglass.decode.FieldNode;

/** The values that expressions see, for comparisons with generated code. */
public final class NodeValues {

    private NodeValues() {
    }

    /** The value of a field, also an array, a structure or a stream; null where there is none. */
    public static Object of(FieldNode node) {
        try {
            return ((Node) node).expressionValue();
        } catch (Undecided e) {
            return null;
        }
    }
}
