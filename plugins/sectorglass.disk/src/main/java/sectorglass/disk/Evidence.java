package sectorglass.disk;

import java.util.List;
import java.util.Locale;

import sectorglass.image.SectorImage;

/**
 * What map providers may start from when they propose: the disk as surveyed, and volumes found without the help of a map.
 *
 * @param disk as surveyed
 * @param found volumes found by scanning, by first sector, none inside another; may be empty
 * @param locale language of texts
 */
public record Evidence(Disk disk, List<FoundVolume> found, Locale locale) {

    /**
     * A volume found by scanning.
     *
     * @param volume opened at the place it fills
     * @param placed whether one of its own structures names the LBA where it was found
     * @param reason how it was found, in words
     */
    public record FoundVolume(Volume volume, boolean placed, String reason) { }

    /** The image. */
    public SectorImage image() {
        return disk.image();
    }
}
