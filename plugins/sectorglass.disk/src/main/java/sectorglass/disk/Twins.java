package sectorglass.disk;

import java.util.List;

import sectorglass.image.ByteRange;

/** A service of a volume: places that hold the same bytes where all is well, and that are too large to be one structure each. */
@FunctionalInterface
public interface Twins {

    /**
     * Two places that should agree.
     *
     * @param name for people: "FAT 1 and FAT 2"
     * @param one image bytes of the first
     * @param other image bytes of the other, as many
     */
    record Pair(String name, ByteRange one, ByteRange other) { }

    /** The pairs, by address. */
    List<Pair> twins();
}
