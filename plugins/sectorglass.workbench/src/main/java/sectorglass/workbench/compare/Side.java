package sectorglass.workbench.compare;

import sectorglass.image.SectorImage;

/**
 * One of the two stretches.
 *
 * @param name what it is, for people
 * @param image the sectors
 * @param start its first image byte
 */
record Side(String name, SectorImage image, long start) {

    /** Bytes from its start to the end of its image. */
    long room() {
        return Math.max(0, image.bytes() - start);
    }
}
