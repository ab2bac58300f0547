package sectorglass.decode;

import java.io.IOException;
import java.io.InputStream;

/** The specs of one bundle; a provider. Usually an empty subclass of {@link BundleFormats}. */
public interface FormatFolder {

    /** Symbolic name of the bundle. */
    String bundle();

    /**
     * Opens a file of the folder: {@code index}, or a spec named there.
     *
     * @param file relative name with slashes
     * @return the stream, or null where there is no such file
     */
    InputStream open(String file) throws IOException;
}
