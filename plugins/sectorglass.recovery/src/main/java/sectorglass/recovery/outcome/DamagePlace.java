package sectorglass.recovery.outcome;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ByteRange;

/**
 * A range of a file that was not read, and what such a place usually holds.
 *
 * @param range bytes of the file
 * @param part where in the file it lies
 */
public record DamagePlace(ByteRange range, Part part) {
    /**
     * Bytes at the beginning without which most programs do not open a file at all; the catalogues that many formats keep at the end are
     * as large. Common practice, no source.
     */
    public static final int EDGE = 4096;

    /** Where a range lies. */
    public enum Part {
        /** The header: without it most programs do not open the file. */
        HEADER,
        /** The middle: most programs open the file and show the rest. */
        MIDDLE,
        /** The end, where many formats keep their table of contents. */
        TAIL;

        /** The word in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * Names the missing ranges of a file; one that touches the first or last {@value #EDGE} bytes belongs there, as a header first.
     *
     * @param bytes length of the file
     */
    public static List<DamagePlace> of(long bytes, List<ByteRange> missing) {
        List<DamagePlace> all = new ArrayList<>(missing.size());
        for (ByteRange range : missing) {
            Part part = range.start() < EDGE ? Part.HEADER : range.end() > bytes - EDGE ? Part.TAIL : Part.MIDDLE;
            all.add(new DamagePlace(range, part));
        }
        return all;
    }
}
