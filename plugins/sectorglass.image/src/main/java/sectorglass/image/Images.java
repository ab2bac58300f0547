package sectorglass.image;

import java.io.IOException;
import java.nio.file.Path;

/** Opens raw images: one file, or the parts of a chunk set. Files are opened read only; nothing is ever written to them or locked. */
public final class Images {

    private Images() {
    }

    /** Opens an image with everything found out. */
    public static OpenImage open(Path path) throws ImageException {
        return open(path, OpenOptions.DEFAULT);
    }

    /**
     * Opens an image.
     *
     * @param path a raw file, or a part of a chunk set
     * @throws ImageException where it cannot be opened, as one or two sentences for a person
     */
    public static OpenImage open(Path path, OpenOptions options) throws ImageException {
        return new Opening(path, options).open();
    }

    /** For tests of sentences. */
    static ImageException refusal(Path file, IOException e, OpenOptions options) {
        return FileRefusal.of(new Texts(options.locale()), file, e);
    }
}
