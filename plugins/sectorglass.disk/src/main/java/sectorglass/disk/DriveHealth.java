package sectorglass.disk;

import java.util.List;

/**
 * What a drive says of its health.
 *
 * @param attributes in the order of the sector
 */
public record DriveHealth(List<Attribute> attributes) {

    /**
     * One attribute. What it means is up to the maker; the names are the usual ones.
     *
     * @param id 1 to 255
     * @param name the usual meaning, or null
     * @param prefailure whether falling to the threshold foretells failure
     * @param value normalised value, 1 to 253, falling as it gets worse
     * @param worst worst value so far
     * @param threshold the limit, or null where not known
     * @param raw the maker's own count, 48 bits
     */
    public record Attribute(int id, String name, boolean prefailure, int value, int worst, Integer threshold, long raw) {

        /** Whether the value has fallen to its threshold; null where the threshold is not known. */
        public Boolean failing() {
            return threshold == null ? null : threshold != 0 && value <= threshold;
        }
    }
}
