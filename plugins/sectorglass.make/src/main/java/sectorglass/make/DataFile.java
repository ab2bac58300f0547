package sectorglass.make;

/**
 * A file to be made.
 *
 * @param name its name
 * @param bytes its size
 * @param content what it holds
 * @param times its times
 * @param attributes attribute bits
 * @param pieces in how many runs of clusters it lies, 1 or more; fewer where it has fewer clusters
 * @param deleted whether it is deleted again after it was made: entry or record and clusters stay as the file system leaves them
 */
public record DataFile(String name, long bytes, ContentKind content, Times times, int attributes, int pieces, boolean deleted)
        implements Node {

    /** The attribute that files usually bear. */
    public static final int ARCHIVE = 0x20;

    /** Checks numbers. */
    public DataFile {
        if (bytes < 0 || pieces < 1) {
            throw new IllegalArgumentException("bytes=" + bytes + " pieces=" + pieces);
        }
    }

    /** A file in one piece. */
    public static DataFile of(String name, long bytes, ContentKind content, Times times) {
        return new DataFile(name, bytes, content, times, ARCHIVE, 1, false);
    }

    /** The same in several runs of clusters. */
    public DataFile inPieces(int count) {
        return new DataFile(name, bytes, content, times, attributes, count, deleted);
    }

    /** The same, deleted again. */
    public DataFile asDeleted() {
        return new DataFile(name, bytes, content, times, attributes, pieces, true);
    }

    /** The same with other attributes. */
    public DataFile with(int newAttributes) {
        return new DataFile(name, bytes, content, times, newAttributes, pieces, deleted);
    }
}
