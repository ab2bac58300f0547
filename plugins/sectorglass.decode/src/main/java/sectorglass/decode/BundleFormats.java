package sectorglass.decode;

import java.io.InputStream;

/** A folder of specs packed into the bundle of the subclass as {@code BUNDLE/formats/}. */
public abstract class BundleFormats implements FormatFolder {
    private final String bundle;

    /** @param bundle symbolic name of the bundle that holds the subclass */
    protected BundleFormats(String bundle) {
        this.bundle = bundle;
    }

    @Override
    public final String bundle() {
        return bundle;
    }

    @Override
    public final InputStream open(String file) {
        return getClass().getResourceAsStream("/" + bundle + "/formats/" + file);
    }
}
