package sectorglass.disk;

/**
 * A structure that knows its own place and where it was found.
 *
 * @param foundByte image byte where it lies
 * @param homeByte image byte where it says it belongs
 * @param structure in words
 */
public record Witness(long foundByte, long homeByte, String structure) {

    /** How many bytes late the content lies: positive if it stands after its home. */
    public long shift() {
        return foundByte - homeByte;
    }
}
