package sectorglass.disk;

import java.util.List;

/**
 * What a drive says of itself. Texts are trimmed and hold printable characters only.
 *
 * @param model its model
 * @param serial its serial number
 * @param firmware its firmware revision
 * @param sectors logical sectors that it reports
 * @param sectorBytes bytes per logical sector
 * @param physicalBytes bytes per physical sector
 * @param facts more of it, in words
 */
public record DriveIdentity(String model, String serial, String firmware, long sectors, int sectorBytes, int physicalBytes,
        List<Fact> facts) {

    /**
     * A fact for people.
     *
     * @param name what it is about
     * @param value what is said
     */
    public record Fact(String name, String value) { }
}
