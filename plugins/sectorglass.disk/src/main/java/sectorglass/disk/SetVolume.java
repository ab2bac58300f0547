package sectorglass.disk;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;

/**
 * A volume that a set holds.
 *
 * @param name its name in the set, or null
 * @param typeName what it is, in words: "logical volume, linear", "mirror of 2 disks"
 * @param uuid its identity, or null
 * @param image an image that holds it
 * @param range its sectors of that image
 * @param own whether sectors of {@code image} have the addresses of the surveyed image; otherwise they are counted in the volume
 */
public record SetVolume(String name, String typeName, String uuid, SectorImage image, SectorRange range, boolean own) { }
