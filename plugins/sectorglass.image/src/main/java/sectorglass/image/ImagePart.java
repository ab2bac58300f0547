package sectorglass.image;

import java.nio.file.Path;

/**
 * A part of an image.
 *
 * @param file where it lies; null where it is missing
 * @param number its number in the file name, or -1
 * @param start position of its first byte in the sequence of all parts, before a dump form is applied
 * @param bytes number of bytes it stands for; for a missing part, the number assumed
 */
public record ImagePart(Path file, long number, long start, long bytes) {

    /** Whether there is no file for it: its bytes are unread. */
    public boolean missing() {
        return file == null;
    }
}
