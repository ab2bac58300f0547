package sectorglass.image;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import sectorglass.image.store.HoleScan;

/**
 * The places of a file that were never written. Their bytes come back as zero; whether they were zero on the disk or never read, nobody
 * can tell, so they are offered as a source of read states, not taken.
 *
 * @param file the file
 * @param ranges the holes in order, as bytes of the file
 */
public record Holes(Path file, List<ByteRange> ranges) {
    /** Holes that are listed; a file with more is said to have unknown ones. */
    public static final int MOST = 4_000_000;

    /** The holes of a file; nothing where the platform does not tell: then holes are not known, which is not the same as none. */
    public static Optional<Holes> of(Path file) {
        List<ByteRange> ranges = new ArrayList<>();
        try {
            boolean told = HoleScan.scan(file, (start, end) -> {
                ranges.add(new ByteRange(start, end - start));
                return ranges.size() < MOST;
            });
            return told ? Optional.of(new Holes(file, List.copyOf(ranges))) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }
}
