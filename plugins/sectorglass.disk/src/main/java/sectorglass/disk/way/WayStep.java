package sectorglass.disk.way;

import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;

/**
 * A step on the way.
 *
 * @param title the structure, in a few words
 * @param text one or two sentences: what is looked for here, and why
 * @param format id of the format that explains the structure, or null
 * @param where image bytes of the structure
 * @param readings fields read here, in the order in which they are needed
 * @param calculations arithmetic with them
 * @param next image byte of the next structure, or of the file's first byte after the last step; -1 where the way ends here
 * @param stop why it ends here, a sentence; null where it goes on
 * @param missing sectors that were not read and end the way; empty otherwise
 */
public record WayStep(String title, String text, String format, ByteRange where, List<Reading> readings, List<Calculation> calculations, long next, String stop,
        SectorRanges missing) { }
