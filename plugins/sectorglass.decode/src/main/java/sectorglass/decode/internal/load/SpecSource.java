package sectorglass.decode.internal.load;

import java.io.IOException;

/** Where specs are read from. */
public interface SpecSource {

    /**
     * The text of a spec, or null where there is none.
     *
     * @param path name from the root of the folder, with slashes, without leading slash, with {@code .ksy}
     */
    String read(String path) throws IOException;
}
