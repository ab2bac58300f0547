package sectorglass.image;

/** What is known about the bytes of a sector. Only {@link #READ} bytes are data. */
public enum ReadState {
    /** The sector was read; its bytes are data. */
    READ,
    /** Reading was tried and failed. */
    FAILED,
    /** Reading was put off on purpose, for instance near a failed place or below a weak head. */
    SKIPPED,
    /** Nobody tried yet, or the image ends before it. */
    UNREAD;

    /** The word used in read maps, reports and JSON: lower case English. */
    public String word() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }
}
