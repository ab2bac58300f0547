package sectorglass.make;

/** What a file holds. Every kind fills exactly the size asked for and is invented from the seed. */
public enum ContentKind {
    /** Zeros; nothing is written to the image. */
    ZERO,
    /** Bytes without a pattern. */
    RANDOM,
    /** Numbered lines of plain English, ASCII. */
    TEXT,
    /** The text that says that everything on the volume is invented, padded with line ends. */
    NOTICE,
    /** A PNG picture; at least 256 bytes, else it is random bytes. */
    PNG,
    /** A baseline JPEG picture; at least 2048 bytes, else it is random bytes. */
    JPEG,
    /** A PDF document of one page; at least 1024 bytes, else it is random bytes. */
    PDF,
    /** A ZIP archive with stored members; at least 512 bytes, else it is random bytes. */
    ZIP,
    /** A WAV sound of one channel, 16 bits; at least 64 bytes, else it is random bytes. */
    WAV
}
