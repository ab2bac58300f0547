package sectorglass.image;

import java.nio.file.Path;

/**
 * A part of an image as a person or a job names it.
 *
 * @param file where it lies; null where it is missing, so that its bytes are unread
 * @param bytes number of bytes it stands for, whatever the size of its file; {@link #WHOLE} for as many as its file has
 */
public record GivenPart(Path file, long bytes) {
    /** All bytes of the file. */
    public static final long WHOLE = -1;

    /** @throws IllegalArgumentException for a missing part without a size */
    public GivenPart {
        if (bytes < WHOLE || file == null && bytes < 1) {
            throw new IllegalArgumentException("file=" + file + " bytes=" + bytes);
        }
    }
}
