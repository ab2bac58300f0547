package sectorglass.disk;

/**
 * Bytes that tell a structure, for scans.
 *
 * @param structure what it is, in words
 * @param offset of the bytes from the start of the structure
 * @param bytes what stands there
 * @param volumeOffset of the structure from the start of its volume, or -1 where it may lie anywhere
 */
public record Signature(String structure, int offset, byte[] bytes, long volumeOffset) { }
