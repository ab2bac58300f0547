package sectorglass.recovery;

import java.util.List;

/**
 * What an image looks like where nothing is known of it: entropy along its length, signatures that repeat, text.
 *
 * @param strip the image in equal pieces, by address
 * @param repeats signatures that repeat, the most frequent first
 * @param texts pieces of text that were met, each once
 * @param windows places that were sampled for repeats and text
 * @param unreadWindows how many of them were not read
 */
public record ContentLook(List<Piece> strip, List<Repeat> repeats, List<Text> texts, int windows, int unreadWindows) {

    /** What a piece of the image looks like. */
    public enum Looks {
        /** No byte of the sample was read. */
        UNREAD,
        /** Zeros. */
        ZERO,
        /** One pattern over and over. */
        PATTERN,
        /** Mostly printable characters. */
        TEXT,
        /** As random as compressed or encrypted bytes. */
        RANDOM,
        /** Anything else. */
        MIXED;

        /** The word in JSON and the key of its text. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * A piece of the image.
     *
     * @param firstByte image byte
     * @param bytes its length
     * @param looks what the sample in its middle looks like
     * @param entropy bits per byte of the sample, 0 to 8; -1 where it was not read
     */
    public record Piece(long firstByte, long bytes, Looks looks, double entropy) { }

    /**
     * Bytes that begin blocks again and again.
     *
     * @param hex the bytes
     * @param text the same as text, with dots for what does not print
    
     * @param stride the most frequent distance from one to the next in bytes
     * @param regular share of all distances that are a multiple of it, in percent
     * @param count how often they were met in the samples
     * @param firstByte image byte of the first one met
     * @param constant number of bytes after them that are the same at all places looked at, up to 64
     */
    public record Repeat(String hex, String text, long stride, int regular, int count, long firstByte, int constant) { }

    /**
     * A piece of text.
     *
     * @param firstByte image byte
     * @param text up to 80 characters
     * @param encoding ascii or utf-16
     */
    public record Text(long firstByte, String text, String encoding) { }
}
