package sectorglass.cli;

/** Exit statuses. */
final class Status {
    static final int DONE = 0;
    static final int FINDINGS = 1;
    static final int USE = 2;
    static final int IMAGE = 3;
    static final int STOPPED = 4;
    static final int INCOMPLETE = 5;
    static final int OUTPUT = 6;
    static final int FAULT = 7;

    private Status() {
    }
}
