package sectorglass.decode.internal.run;

/** Limits that hold whatever the caller asks for. */
final class Limits {
    /** Depth of nesting, for the sake of the stack. */
    static final int DEPTH = 200;
    /** Bytes that process steps and expressions of one run may make. */
    static final long MADE_BYTES = 64L << 20;
    /** Elements without bytes in a row before an array ends. */
    static final int WITHOUT_PROGRESS = 256;

    private Limits() {
    }
}
