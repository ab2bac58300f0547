package sectorglass.workbench.recovery.files;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.ZoneId;
import java.util.List;

import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.recovery.Extraction;
import sectorglass.recovery.Manifest;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.Words;

/** Extracts files with their manifest and counts. */
final class Extracting {
    private long files;
    private long bytes;
    private long incomplete;
    private Path manifest;

    private Extracting() {
    }

    /** Extracts entries into a folder; unread bytes become zero and are named in the manifest. */
    static Extracting run(Files from, List<Integer> wanted, Path folder, boolean deleted, Progress progress) throws IOException {
        java.nio.file.Files.createDirectories(folder);
        Extracting result = new Extracting();
        result.manifest = folder.resolve("manifest.csv");
        Extraction extraction = new Extraction(from, folder, new Extraction.Options((byte) 0, deleted, true, ZoneId.systemDefault()), progress);
        try (BufferedWriter lines = java.nio.file.Files.newBufferedWriter(result.manifest, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            Manifest manifest = new Manifest(lines, folder.toRealPath());
            for (int entry : wanted) {
                extraction.extract(entry, written -> {
                    manifest.add(written);
                    result.count(written);
                    progress.at(Words.of("files.extracted", Numbers.grouped(result.files)), 0, 0);
                });
            }
        } catch (FileAlreadyExistsException e) {
            throw new IOException(Words.of("files.exists", e.getMessage()), e);
        }
        return result;
    }

    private void count(Extraction.Written written) {
        files += written.file() == null ? 0 : 1;
        bytes += written.file() == null ? 0 : written.bytes();
        incomplete += written.complete() ? 0 : 1;
    }

    /** What was done. */
    String words() {
        return Words.of("files.done", Numbers.grouped(files), Numbers.size(bytes), Numbers.grouped(incomplete), manifest);
    }
}
