package sectorglass.disk.way;

import sectorglass.image.ByteRange;

/**
 * A field that was read on the way.
 *
 * @param name its name, in the standard's words
 * @param where its image bytes
 * @param hex its bytes as two digits each, separated by blanks, in the order in which they stand; the first sixteen where it is longer
 * @param value what they mean: a number in decimal, a name; safe to show
 */
public record Reading(String name, ByteRange where, String hex, String value) { }
