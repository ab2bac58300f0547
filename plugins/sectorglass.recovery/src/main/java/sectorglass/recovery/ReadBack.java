package sectorglass.recovery;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

import sectorglass.image.Progress;

/**
 * Reads a medium back and compares it with the manifest of what was written to it: the proof that the customer receives what was recovered.
 *
 * @param files files that the manifest names
 * @param bytes of those that are as it says
 * @param same files that are as it says
 * @param missing files that are not there
 * @param different files that are there with other bytes, and why
 * @param unreadable files that the medium does not give back, and why
 * @param more files that the manifest does not name
 */
public record ReadBack(long files, long bytes, long same, List<String> missing, List<String> different, List<String> unreadable, List<String> more) {

    /** Whether the medium holds everything as it was written. */
    public boolean good() {
        return same == files;
    }

    /**
     * Reads back.
     *
     * @param folder on the medium; the manifest itself may lie in it
     */
    public static ReadBack of(ManifestFile manifest, Path folder, Progress progress) throws IOException {
        Path root = folder.toRealPath();
        List<String> missing = new ArrayList<>();
        List<String> different = new ArrayList<>();
        List<String> unreadable = new ArrayList<>();
        Set<Path> known = new HashSet<>();
        long files = 0;
        long same = 0;
        long bytes = 0;
        for (ManifestFile.Line line : manifest.lines()) {
            progress.checkCancelled();
            if (line.file().isEmpty()) {
                continue;
            }
            files++;
            progress.at("reading back " + line.file(), files, manifest.lines().size());
            Path file = root.resolve(line.file()).normalize();
            if (!file.startsWith(root)) {
                different.add(line.file() + ": leads out of the folder");
                continue;
            }
            known.add(file);
            try {
                if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
                    missing.add(line.file());
                } else if (Files.size(file) != line.bytes()) {
                    different.add(line.file() + ": " + Files.size(file) + " bytes instead of " + line.bytes());
                } else if (!FileHash.sha256(file, progress).equals(line.sha256())) {
                    different.add(line.file() + ": other content");
                } else {
                    same++;
                    bytes += line.bytes();
                }
            } catch (IOException e) {
                unreadable.add(line.file() + ": " + e.getMessage());
            }
        }
        List<String> more = new ArrayList<>();
        try (Stream<Path> all = Files.walk(root)) {
            all.filter(file -> Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS) && !known.contains(file) && !file.equals(root.resolve("manifest.csv")))
                    .sorted().forEach(file -> more.add(Manifest.relative(root, file)));
        } catch (java.io.UncheckedIOException e) {
            throw e.getCause();
        }
        return new ReadBack(files, bytes, same, List.copyOf(missing), List.copyOf(different), List.copyOf(unreadable), List.copyOf(more));
    }
}
