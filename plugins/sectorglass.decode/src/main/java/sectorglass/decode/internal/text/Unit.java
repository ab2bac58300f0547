package sectorglass.decode.internal.text;

/** A unit: how a value is written and what it says beside that. Either answer may be null. */
public interface Unit {

    /** The word of the {@code -unit} key. */
    String word();

    /** The value as text, or null for the plain form. */
    String value(Object raw, boolean unsigned);

    /** What the value means, or null. */
    String meaning(Object raw, boolean unsigned);
}
