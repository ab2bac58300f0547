package sectorglass.practice.lesson;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;

/** A folder of lessons; a provider. Files end in {@code .lesson}, {@code .disk} or {@code .terms} (docs/lessons-format.md). */
public interface LessonPack {

    /** Name for messages: the bundle, or the folder's path. */
    String name();

    /**
     * Names of its files.
     *
     * @throws IOException if they cannot be listed
     */
    List<String> files() throws IOException;

    /**
     * Opens a file that {@link #files} names.
     *
     * @throws IOException if it cannot be read
     */
    InputStream open(String file) throws IOException;
}
