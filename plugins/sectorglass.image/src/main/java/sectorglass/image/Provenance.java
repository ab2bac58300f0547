package sectorglass.image;

/**
 * Where patched bytes come from.
 *
 * @param kind why the bytes differ from the stored ones
 * @param source in words: the image, copy or proposal they were taken from
 */
public record Provenance(Kind kind, String source) {

    /** The reasons for which bytes may stand over others. */
    public enum Kind {
        /** An update sequence was undone: the stored bytes are its marks, these the content. */
        FIX_UP,
        /** A proposed correction. */
        PROPOSAL,
        /** Taken from another pass or copy of the same disk. */
        COPY,
        /** Changed by hand. */
        HAND
    }
}
