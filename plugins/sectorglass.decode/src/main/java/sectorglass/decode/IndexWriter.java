package sectorglass.decode;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Stream;

import sectorglass.decode.internal.load.IndexLine;

/** Build step: writes {@code index} into a folder of specs, a line per spec: id, title, file, kinds. */
public final class IndexWriter {

    private IndexWriter() {
    }

    /**
     * Writes the index.
     *
     * @param args the folder; one that does not exist is left alone
     * @throws IllegalStateException if a spec cannot be indexed; names file, line and column
     */
    public static void main(String[] args) {
        Path folder = Path.of(args[0]);
        if (!Files.isDirectory(folder)) {
            return;
        }
        TreeMap<String, String> lines = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            List<Path> specs = all.filter(p -> p.getFileName().toString().endsWith(".ksy")).sorted().toList();
            for (Path spec : specs) {
                String file = folder.relativize(spec).toString().replace('\\', '/');
                String line = IndexLine.of(file, Files.readString(spec, StandardCharsets.UTF_8));
                String before = lines.putIfAbsent(line.substring(0, line.indexOf('\t')), line);
                if (before != null) {
                    throw new IllegalStateException(file + ": the id is also that of " + before.split("\t")[2]);
                }
            }
            Files.writeString(folder.resolve("index"), lines.isEmpty() ? "" : String.join("\n", lines.values()) + "\n");
        } catch (SpecException e) {
            throw new IllegalStateException(e.getMessage(), e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
