package sectorglass.decode;

import sectorglass.decode.internal.load.Spec;
import sectorglass.decode.internal.run.Run;
import sectorglass.image.Window;

/** Runs formats. */
public final class Decoder {
    /** Largest window that is decoded, in bytes: 4 MiB. A larger one is decoded up to there. */
    public static final int MAX_WINDOW = 4 << 20;

    private Decoder() {
    }

    /**
     * Decodes a window. Never throws because of the bytes: what is damaged, unread or cut off is marked in the tree.
     *
     * @param format a format made by this bundle
     * @param window at most {@link #MAX_WINDOW} bytes are used
     * @return the root of the tree
     */
    public static FieldNode decode(Format format, Window window, DecodeOptions options) {
        if (!(format instanceof Spec spec)) {
            throw new IllegalArgumentException("format=" + format + " was not loaded by this bundle");
        }
        Window bounded = window.length() > MAX_WINDOW ? window.sub(0, MAX_WINDOW) : window;
        return Run.decode(spec.rootField(), spec.type(), bounded, options);
    }
}
