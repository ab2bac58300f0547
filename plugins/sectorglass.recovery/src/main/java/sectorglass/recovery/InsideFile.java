package sectorglass.recovery;

/**
 * A place in a known file.
 *
 * @param volumeByte image byte of the first byte of the volume that holds the file
 * @param kind kind of that volume
 * @param path of the file, safe to show
 * @param deleted whether the file was deleted
 * @param offset byte in the file
 */
public record InsideFile(long volumeByte, String kind, String path, boolean deleted, long offset) { }
