package sectorglass.decode;

import sectorglass.image.Window;

/** Runs formats. */
public final class Decoder {

    private Decoder() {
    }

    /**
     * Decodes a window. Never throws because of the bytes: what is damaged, unread or cut off is marked in the tree.
     *
     * @return the root of the tree
     */
    public static FieldNode decode(Format format, Window window, DecodeOptions options) {
        throw new UnsupportedOperationException();
    }
}
