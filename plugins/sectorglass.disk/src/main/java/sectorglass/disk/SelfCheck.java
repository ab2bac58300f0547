package sectorglass.disk;

import java.util.Optional;

import sectorglass.image.SectorImage;

/** A capability of a {@link Volume}: whether a structure holds by the checks that it carries in itself, such as a checksum or fix-ups. Safe for several threads. */
public interface SelfCheck {

    /**
     * Judges a structure.
     *
     * @param structure of this volume, as {@link Structures#structureAt} tells it
     * @param image where its bytes are read: that of the volume, or another copy of the same disk
     * @return empty where it carries no such check, or what the check needs was not read
     */
    Optional<Boolean> holds(Structure structure, SectorImage image);
}
