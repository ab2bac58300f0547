package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/**
 * A kind of fault.
 *
 * @param name stable and unique: the check's id, with a further word where there are several ways to break the rule
 * @param check id of the check that must fail
 * @param level from which level on it is planted, 1 to 5
 * @param area what it needs
 * @param zone the part of its map or volume that it takes for itself: no two faults of a disk lie in the same zone, or in a zone and a part of
 *     it; words joined by {@code /}, empty for the whole map or volume
 * @param planting plants it
 */
public record FaultKind(String name, String check, int level, Area area, String zone, Planting planting) {

    /** Plants a fault of a kind. */
    @FunctionalInterface
    public interface Planting {

        /**
         * Changes the bytes.
         *
         * @throws IOException if the file fails
         * @throws NoPlaceException if this disk has no place for it
         */
        void plant(Site site) throws IOException;
    }

    /** A disk has no place for a fault of this kind: no file is long enough, no slot is free. */
    public static final class NoPlaceException extends RuntimeException {
        private static final long serialVersionUID = 1L;

        NoPlaceException(String what) {
            super(what, null, false, false);
        }
    }

    /** All kinds, in an order that never depends on anything. */
    public static List<FaultKind> all() {
        return Kinds.ALL;
    }
}
