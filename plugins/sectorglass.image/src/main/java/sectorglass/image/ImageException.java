package sectorglass.image;

/** An image cannot be opened. The message is one or two plain sentences for a person: what, where, what to do. */
public final class ImageException extends Exception {
    private static final long serialVersionUID = 1L;

    /** @param sentence for a person */
    public ImageException(String sentence) {
        super(sentence);
    }

    /** @param sentence for a person */
    public ImageException(String sentence, Throwable cause) {
        super(sentence, cause);
    }
}
