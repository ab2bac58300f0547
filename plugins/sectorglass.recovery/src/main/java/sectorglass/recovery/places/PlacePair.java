package sectorglass.recovery.places;

import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;

/**
 * Two places of one image that should agree.
 *
 * @param volume number of the volume, or null
 * @param name both, for people
 * @param one image bytes of the first
 * @param other image bytes of the other
 * @param first what stands at the first, or null where no format explains it as a whole
 * @param second what stands at the other, or null
 */
public record PlacePair(Integer volume, String name, ByteRange one, ByteRange other, Structure first, Structure second) {

    /** Two places that a person names. */
    public static PlacePair byHand(long one, long other, long length) {
        return new PlacePair(null, "", new ByteRange(one, length), new ByteRange(other, length), null, null);
    }
}
