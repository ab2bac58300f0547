package sectorglass.disk;

/**
 * The capacity a drive of this size is sold with.
 *
 * @param gigabytes decimal gigabytes
 * @param sectors logical sectors that a drive of this capacity has
 * @param complete whether the image has as many
 * @param source which formula or table says so
 */
public record Nominal(long gigabytes, long sectors, boolean complete, String source) { }
