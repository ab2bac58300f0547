package sectorglass.image;

/**
 * Bytes that stand over the bytes of an image.
 *
 * @param start image byte of the first one
 * @param bytes the bytes; not copied, not to be changed afterwards
 * @param provenance where they come from
 */
public record Patch(long start, byte[] bytes, Provenance provenance) {

    /** The image bytes covered. */
    public ByteRange range() {
        return new ByteRange(start, bytes.length);
    }
}
