package sectorglass.make;

import java.time.Instant;

/**
 * Times of a file or folder. FAT keeps no zone: what is written there is UTC.
 *
 * @param created when it was made
 * @param modified when its content was last written
 * @param accessed when it was last read; FAT keeps the day only
 */
public record Times(Instant created, Instant modified, Instant accessed) {

    /** All three the same. */
    public static Times at(Instant all) {
        return new Times(all, all, all);
    }

    /** All three the same, as text of the form 2025-03-01T10:00:00Z. */
    public static Times at(String all) {
        return at(Instant.parse(all));
    }
}
