package sectorglass.recovery;

/** Whether what a search found is of the disk's present format. */
public enum FoundState {
    /** Nothing speaks against its being in use. */
    PRESENT,
    /** Left over from a former format: newer structures lie over it. */
    LEFTOVER,
    /** Within a container that is in use: a set member, an encrypted volume. It needs no partition of its own. */
    IN_CONTAINER,
    /** Part of a file: a volume stored in a volume. */
    IN_FILE,
    /** It overlaps another one and nothing tells which is newer. */
    DOUBTFUL;

    /** The word in JSON and the key of its text. */
    public String word() {
        return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }
}
