package sectorglass.practice.disk;

import java.io.IOException;

/** A file of practice cannot be used; the message says why, in a sentence for people. */
public final class PracticeException extends IOException {
    private static final long serialVersionUID = 1L;

    /** @param sentence for people */
    public PracticeException(String sentence) {
        super(sentence);
    }
}
