package sectorglass.practice.disk;

import java.util.List;
import java.util.Map;

/**
 * The key to one practice disk.
 *
 * @param code names the disk on its sheets, without telling the seed
 * @param seed what it was made from
 * @param level 1 to 5
 * @param seat number in a class set, 0 for a single disk
 * @param image name of the image file
 * @param sectorSize bytes per sector
 * @param sectors length of the image
 * @param sha256 of the image, hex lower case
 * @param faults the planted ones, by address
 * @param also what {@code verify} reports besides, as a consequence: naming it neither gains nor costs
 * @param choices the checks that the answer form offers, with their words
 */
public record DiskKey(String code, long seed, int level, int seat, String image, int sectorSize, long sectors, String sha256, List<KeyFault> faults,
        List<Consequence> also, Map<String, String> choices) {

    /**
     * A finding that follows from a planted fault.
     *
     * @param check its id
     * @param firstByte where it points
     * @param length how many bytes
     */
    public record Consequence(String check, long firstByte, long length) { }
}
