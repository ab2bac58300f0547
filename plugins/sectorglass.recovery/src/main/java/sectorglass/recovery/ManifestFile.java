package sectorglass.recovery;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/** A manifest as it was written: what to read back, and what an earlier run finished. */
public final class ManifestFile implements Extraction.Earlier {
    private final List<Line> lines;
    private final Set<List<String>> finished = new HashSet<>();

    /**
     * A line of it.
     *
     * @param path in the volume
     * @param stream empty for the main one
     * @param file relative to the folder, with {@code /}; empty where nothing was written
     * @param bytes its length
     * @param sha256 of what was written, or empty
     * @param complete whether it came out whole
     */
    public record Line(String path, String stream, String file, long bytes, String sha256, boolean complete) { }

    private ManifestFile(List<Line> lines) {
        this.lines = lines;
        lines.forEach(line -> finished.add(List.of(line.path(), line.stream(), line.file())));
    }

    /**
     * Reads a manifest. Lines that a fault cut off are left out.
     *
     * @throws IOException with a sentence for people where the file is none
     */
    public static ManifestFile load(Path file) throws IOException {
        List<Line> lines = new ArrayList<>();
        try (BufferedReader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            String title = in.readLine();
            if (title == null || !title.startsWith("path,stream,file,bytes,sha256,state,")) {
                throw new IOException(file + " is no manifest of an extraction.");
            }
            int columns = title.split(",").length;
            for (String text = in.readLine(); text != null; text = in.readLine()) {
                Line line = line(text, columns);
                if (line != null) {
                    lines.add(line);
                }
            }
        } catch (java.nio.charset.CharacterCodingException e) {
            throw new IOException(file + " is no manifest of an extraction: it is no text in UTF-8.", e);
        }
        return new ManifestFile(List.copyOf(lines));
    }

    /** A line, or null where a fault left only a part of one; cells hold no line breaks, so the others are not touched. */
    private static Line line(String text, int columns) {
        try (CSVParser parser = CSVFormat.RFC4180.parse(new StringReader(text))) {
            CSVRecord record = parser.iterator().next();
            return record.size() != columns ? null : new Line(plain(record.get(0)), plain(record.get(1)), plain(record.get(2)), Long.parseLong(record.get(3)),
                    record.get(4), record.get(5).equals("complete"));
        } catch (IOException | RuntimeException e) {
            return null;
        }
    }

    /** Takes the apostrophe away that keeps a cell from being a formula. */
    private static String plain(String cell) {
        return cell.length() > 1 && cell.charAt(0) == '\'' && "=+-@'".indexOf(cell.charAt(1)) >= 0 ? cell.substring(1) : cell;
    }

    /** Takes away the beginning of a line that a fault left at the end, so that further lines can be added. */
    public static void mend(Path file) throws IOException {
        try (java.nio.channels.FileChannel channel = java.nio.channels.FileChannel.open(file, java.nio.file.StandardOpenOption.READ, java.nio.file.StandardOpenOption.WRITE)) {
            byte[] end = new byte[(int) Math.min(1 << 20, channel.size())];
            long from = channel.size() - end.length;
            channel.read(java.nio.ByteBuffer.wrap(end), from);
            int last = end.length;
            while (last > 0 && end[last - 1] != '\n') {
                last--;
            }
            channel.truncate(from + last);
        }
    }

    /** All lines. */
    public List<Line> lines() {
        return lines;
    }

    @Override
    public boolean finished(String path, String stream, String file) {
        return finished.contains(List.of(path, stream, file));
    }
}
