package sectorglass.decode;

import java.util.List;
import java.util.Optional;

import sectorglass.image.Providers;

/** The formats of all bundles, known by their index, loaded one by one when needed. Safe for several threads. */
public final class FormatCatalogue {

    /** A catalogue of these folders. */
    public FormatCatalogue(List<FormatFolder> folders) {
    }

    /** The catalogue of all provided folders; reads their indexes only. */
    public static FormatCatalogue ofProviders() {
        return new FormatCatalogue(Providers.all(FormatFolder.class));
    }

    /** All formats in order of their ids. */
    public List<FormatInfo> formats() {
        throw new UnsupportedOperationException();
    }

    /** The index line of a format. */
    public Optional<FormatInfo> find(String id) {
        return formats().stream().filter(f -> f.id().equals(id)).findFirst();
    }

    /**
     * Loads a format and what it imports; kept for the next time.
     *
     * @throws SpecException if the spec is wrong
     * @throws IllegalArgumentException if there is no such format
     */
    public Format load(String id) throws SpecException {
        throw new UnsupportedOperationException();
    }
}
