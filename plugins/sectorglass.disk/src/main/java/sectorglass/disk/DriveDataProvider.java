package sectorglass.disk;

import java.util.Optional;

import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.verify.Checks;

/**
 * Reads sectors in which a drive describes itself, saved beside an image; a provider. Addresses of what it reports are bytes of the
 * saved sector, not of the image.
 */
public interface DriveDataProvider {

    /** Bytes of a saved sector. */
    int LENGTH = 512;

    /**
     * What identity data say.
     *
     * @param data the saved sector
     * @return empty where it is shorter than {@link #LENGTH}
     */
    Optional<DriveIdentity> identify(Window data);

    /**
     * What health data say.
     *
     * @param data the saved sector
     * @param thresholds the saved sector of thresholds, or null
     * @return empty where the data are shorter than {@link #LENGTH}
     */
    Optional<DriveHealth> health(Window data, Window thresholds);

    /**
     * Judges identity data.
     *
     * @param image the image to compare the number of sectors with, or null
     */
    void checkIdentity(Window data, SectorImage image, Checks out);

    /**
     * Judges health data.
     *
     * @param thresholds the saved sector of thresholds, or null
     */
    void checkHealth(Window data, Window thresholds, Checks out);
}
