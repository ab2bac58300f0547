package sectorglass.image;

/**
 * Bytes were asked for that were not read, so that no answer can be given. A check that meets it answers <em>not checked</em> and
 * names {@link #missing()}.
 */
public final class UnreadException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient SectorRanges missing;

    /** @param missing the sectors that were not read, not empty */
    public UnreadException(SectorRanges missing) {
        super(null, null, false, Boolean.getBoolean("sectorglass.trace"));
        this.missing = missing;
    }

    /** The sectors whose bytes are missing. */
    public SectorRanges missing() {
        return missing;
    }

    @Override
    public String getMessage() {
        return "not read: sectors " + missing;
    }
}
