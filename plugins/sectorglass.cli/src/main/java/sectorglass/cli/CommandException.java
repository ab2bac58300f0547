package sectorglass.cli;

/** A command ends with a status and a sentence for the person. */
final class CommandException extends Exception {
    private static final long serialVersionUID = 1L;

    private final int status;

    CommandException(int status, String sentence) {
        super(sentence);
        this.status = status;
    }

    int status() {
        return status;
    }
}
