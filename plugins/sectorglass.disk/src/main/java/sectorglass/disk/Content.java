package sectorglass.disk;

import java.util.List;

import sectorglass.image.ByteRange;

/**
 * The content of one stream of a file, by byte of the file, with what is missing. Never throws because of the bytes. Safe for several
 * threads.
 */
public interface Content {

    /** Length in bytes; -1 where not known: then {@link #extents} is what is known of it. */
    long bytes();

    /**
     * Where its bytes stand, in order of the file, without gaps from 0 to {@link #bytes}. Zero by definition (sparse, beyond the
     * initialised size) are {@link Extent.Kind#HOLE}.
     */
    List<Extent> extents();

    /**
     * Reads bytes of the file. Places that were not read, or cannot be decompressed, are left zero and named.
     *
     * @param offset first byte in the file; offset + length must not exceed {@link #bytes}
     * @return the ranges of the file, within what was asked for, that are not data; empty if all are
     */
    List<ByteRange> read(long offset, byte[] into, int at, int length);

    /** All ranges of the file that are not data, in order; touching ones are joined. */
    List<ByteRange> missing();

    /** Bytes of the file that are data; holes count. */
    default long readBytes() {
        long missing = 0;
        for (ByteRange range : missing()) {
            missing += range.length();
        }
        return Math.max(0, bytes()) - missing;
    }

    /** What was recovered of it. */
    default FileState state() {
        return FileState.of(bytes(), readBytes());
    }

    /** Why the content is doubtful although it was read: another file claims its clusters, they were freed. Empty where nothing is. */
    default List<String> doubts() {
        return List.of();
    }
}
