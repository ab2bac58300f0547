package sectorglass.disk;

import java.util.Optional;

/** Knows the capacities drives are sold with; a provider. */
public interface CapacityRule {

    /**
     * The nominal capacity that the number of sectors is, or just misses.
     *
     * @param sectors logical sectors of the image, or those a drive names
     * @param sectorSize bytes per logical sector
     * @return empty where no nominal capacity is near
     */
    Optional<Nominal> nearest(long sectors, int sectorSize);
}
