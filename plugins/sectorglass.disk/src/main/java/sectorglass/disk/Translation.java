package sectorglass.disk;

import java.util.List;

/**
 * Structures for another sector size, or the reason why they cannot be had.
 *
 * @param changes new bytes; empty where refused
 * @param against what speaks against it, in words
 * @param refusal why not, in words; null where it can be done; empty where nobody here knows the structure
 */
public record Translation(List<Repair.Change> changes, List<String> against, String refusal) {

    /** It can be done. */
    public static Translation of(List<Repair.Change> changes, List<String> against) {
        return new Translation(List.copyOf(changes), List.copyOf(against), null);
    }

    /** It cannot be done. */
    public static Translation refused(String why) {
        return new Translation(List.of(), List.of(), why);
    }
}
