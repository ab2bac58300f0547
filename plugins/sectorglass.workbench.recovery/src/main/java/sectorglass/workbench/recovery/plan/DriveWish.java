package sectorglass.workbench.recovery.plan;

import java.util.ArrayList;
import java.util.List;

import sectorglass.recovery.HeadZones;
import sectorglass.recovery.PlanOptions;
import sectorglass.recovery.ReadCost;

/**
 * What a person told about the drive and its heads.
 *
 * @param zones which head reads which sectors
 * @param weak heads whose sectors come last
 * @param only heads that are planned at all; empty for all
 * @param megabytes read per second, as it was measured; 0 where it was not
 * @param seekMillis time to the next range
 */
record DriveWish(HeadZones zones, List<Integer> weak, List<Integer> only, double megabytes, double seekMillis) {
    /** Nothing told. */
    static final DriveWish NONE = new DriveWish(HeadZones.NONE, List.of(), List.of(), 0, 20);

    /** The options with heads and cost. */
    PlanOptions on(PlanOptions options) {
        PlanOptions with = weak.isEmpty() && only.isEmpty() ? options : options.withHeads(zones.of(weak), only.isEmpty() ? null : zones.of(only));
        return cost() == null ? with : with.withCost(cost());
    }

    /** What reading costs, or null where no speed was told. */
    ReadCost cost() {
        return megabytes > 0 ? new ReadCost(megabytes * 1e6, seekMillis / 1000) : null;
    }

    /** The same with other zones. */
    DriveWish with(HeadZones changed) {
        return new DriveWish(changed, weak, only, megabytes, seekMillis);
    }

    /**
     * Heads as a person writes them: whole numbers with commas or blanks between.
     *
     * @throws NumberFormatException if something else stands there
     */
    static List<Integer> heads(String text) {
        List<Integer> heads = new ArrayList<>();
        for (String part : text.strip().split("[,;\\s]+")) {
            if (!part.isEmpty()) {
                heads.add(Integer.parseUnsignedInt(part));
            }
        }
        return List.copyOf(heads);
    }
}
