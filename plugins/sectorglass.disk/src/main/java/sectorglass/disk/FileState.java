package sectorglass.disk;

/** What was recovered of a file. */
public enum FileState {
    /** Every byte was read. */
    COMPLETE,
    /** Some bytes are missing. */
    DAMAGED,
    /** No byte was read, or nothing tells where they stand. */
    LOST,
    /** The content is not on this volume, or in a form that this volume alone cannot give: placeholders, deduplicated files. */
    ELSEWHERE,
    /** Read or not, the bytes are ciphertext. */
    ENCRYPTED,
    /** What was read cannot tell. */
    UNKNOWN;

    /** The word in JSON and texts. */
    public String word() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }

    /**
     * The state by numbers alone.
     *
     * @param bytes length of the file, or -1 where not known
     * @param readBytes how many of them were read
     */
    public static FileState of(long bytes, long readBytes) {
        if (bytes < 0) {
            return UNKNOWN;
        }
        return readBytes >= bytes ? COMPLETE : readBytes <= 0 ? LOST : DAMAGED;
    }
}
