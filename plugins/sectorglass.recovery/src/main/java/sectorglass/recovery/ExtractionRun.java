package sectorglass.recovery;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.ZoneId;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.function.Consumer;

import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.recovery.opening.FileTests;

/** Extracts entries of a volume into a folder, with their manifest, and counts; goes on where an earlier run ended if that is wanted. */
public final class ExtractionRun {
    private final Path manifest;
    private long files;
    private long bytes;
    private long incomplete;

    /**
     * What is wanted.
     *
     * @param folder to write into; made where it is missing
     * @param fill byte that stands for what was not read
     * @param deleted whether deleted files below a chosen folder come, too
     * @param streams whether named streams come, too
     * @param zone taken for times that have none of their own
     * @param test whether each file is tested by content
     * @param resume whether files of the folder's manifest are not written again
     */
    public record Wish(Path folder, byte fill, boolean deleted, boolean streams, ZoneId zone, boolean test, boolean resume) { }

    private ExtractionRun(Path manifest) {
        this.manifest = manifest;
    }

    /**
     * Extracts.
     *
     * @param entries ids in the tree; one that is given twice comes once
     * @param each hears of the counts after each file
     * @throws FileAlreadyExistsException with the path, where something stands there that no earlier run wrote
     * @throws IOException if something cannot be written; what was finished before is whole and listed
     */
    public static ExtractionRun run(Files from, Collection<Integer> entries, Wish wish, Progress progress, Consumer<ExtractionRun> each) throws IOException {
        java.nio.file.Files.createDirectories(wish.folder());
        ExtractionRun result = new ExtractionRun(wish.folder().resolve("manifest.csv"));
        boolean more = wish.resume() && java.nio.file.Files.exists(result.manifest);
        if (more) {
            ManifestFile.mend(result.manifest);
        }
        ManifestFile before = more ? ManifestFile.load(result.manifest) : null;
        for (ManifestFile.Line line : more ? before.lines() : List.<ManifestFile.Line>of()) {
            result.incomplete += line.complete() ? 0 : 1;
        }
        Extraction.Options options = new Extraction.Options(wish.fill(), wish.deleted(), wish.streams(), wish.zone(), wish.test() ? FileTests.ofProviders() : null,
                wish.resume() ? more ? before : (path, stream, file) -> false : null);
        Extraction extraction = new Extraction(from, wish.folder(), options, progress);
        try (BufferedWriter lines = java.nio.file.Files.newBufferedWriter(result.manifest, StandardCharsets.UTF_8,
                more ? StandardOpenOption.APPEND : StandardOpenOption.CREATE_NEW)) {
            Manifest manifest = new Manifest(lines, wish.folder().toRealPath(), wish.zone(), more);
            for (int entry : new LinkedHashSet<>(entries)) {
                extraction.extract(entry, written -> {
                    manifest.add(written);
                    result.count(written);
                    each.accept(result);
                });
            }
        }
        return result;
    }

    private void count(Extraction.Written written) {
        files += written.file() == null ? 0 : 1;
        bytes += written.file() == null ? 0 : written.bytes();
        incomplete += written.complete() ? 0 : 1;
    }

    /** The manifest. */
    public Path manifest() {
        return manifest;
    }

    /** Files that were written by this run. */
    public long files() {
        return files;
    }

    /** Their bytes. */
    public long bytes() {
        return bytes;
    }

    /** Files of this run, and of the one it continues, that are not complete. */
    public long incomplete() {
        return incomplete;
    }
}
