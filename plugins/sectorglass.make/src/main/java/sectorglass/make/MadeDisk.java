package sectorglass.make;

import java.util.List;

/**
 * A disk that was made.
 *
 * @param description what it was made from
 * @param volumes one per partition, in their order, null where a partition is empty; for a disk without a map its one volume
 */
public record MadeDisk(DiskDescription description, List<MadeVolume> volumes) {
}
