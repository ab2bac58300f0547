package sectorglass.image;

import java.util.List;

/**
 * Says which sector size the structures of an image speak for. Provided by the bundles that know such structures; an image is asked
 * while its sector size is still open, so it must be read by image byte only.
 */
public interface SectorSizeClue {

    /**
     * What speaks for a size.
     *
     * @param sectorSize 512, 1024, 2048 or 4096
     * @param weight 1 (a hint) to 100 (a structure with a good checksum that names its place)
     * @param reason in words, with the byte where it was seen
     */
    record Clue(int sectorSize, int weight, String reason) { }

    /** The clues found; an empty list where nothing speaks. */
    List<Clue> look(SectorImage image);
}
