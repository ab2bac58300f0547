package sectorglass.disk;

/**
 * What a provider says about a site.
 *
 * @param kind one of the provider's kinds
 * @param confidence 1 to 100; the highest claim of all providers is taken: 90 and more for structures with a checksum or several
 *     agreeing fields, 50 for a signature with plausible fields, below 30 for a guess
 * @param site where
 * @param reason in words
 * @param detail the provider's own, handed back to {@link VolumeProvider#open}; may be null
 */
public record Claim(String kind, int confidence, VolumeSite site, String reason, Object detail) { }
