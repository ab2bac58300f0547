package sectorglass.decode.internal.run;

/** What an {@link Extent} found; one per run, to be read before the next field is measured. */
final class Measure {
    /** First byte of the field, as an index in the data. */
    int offset;
    /** Bytes that the field holds. */
    int length;
    /** The value without padding and terminator, as indexes in the data. */
    int from;
    int to;
    /** Why there is no value, or why it is cut off; or null. */
    Trouble trouble;
    /** Whether there is a value. */
    boolean present;
}
