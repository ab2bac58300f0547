package sectorglass.image;

import java.nio.file.Path;

/**
 * Where an image byte lies in the files.
 *
 * @param file the file
 * @param at byte in the file, from 0
 */
public record FilePlace(Path file, long at) { }
