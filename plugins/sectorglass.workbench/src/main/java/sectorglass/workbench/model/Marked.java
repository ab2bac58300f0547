package sectorglass.workbench.model;

import sectorglass.image.SectorRanges;

/**
 * Sectors that belong together and are shown as a whole: those of a file.
 *
 * @param sectors of the image; empty where nothing is marked
 * @param what they are, in words that may be shown
 */
public record Marked(SectorRanges sectors, String what) {
    /** Nothing is marked. */
    public static final Marked NOTHING = new Marked(SectorRanges.EMPTY, "");
}
