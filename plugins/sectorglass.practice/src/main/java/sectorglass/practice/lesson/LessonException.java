package sectorglass.practice.lesson;

/** A lesson asks for something that its disk does not have, or a disk cannot be made; the message is a sentence for the lesson's author. */
public final class LessonException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** With a sentence. */
    public LessonException(String sentence) {
        super(sentence);
    }

    /** With a sentence and its cause. */
    public LessonException(String sentence, Throwable cause) {
        super(sentence, cause);
    }
}
