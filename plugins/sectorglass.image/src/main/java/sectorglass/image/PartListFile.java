package sectorglass.image;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * The part list file: CSV with the columns {@code first_lba,sectors,file}, and {@code first_byte,bytes} where parts cut sectors; described in
 * docs/files.md.
 */
final class PartListFile {
    private static final int MOST_PARTS = 1_000_000;
    private static final int[] SIZES = {512, 4096, 1024, 2048};

    /**
     * A line of the list.
     *
     * @param line its number
     * @param file resolved against the folder of the list
     * @param firstByte its first image byte; -1 where the sectors tell
     * @param bytes how many it holds; -1 where the sectors tell
     */
    record Entry(long line, long first, long sectors, Path file, long firstByte, long bytes) {

        long start(int size) {
            return firstByte >= 0 ? firstByte : first * size;
        }

        long length(int size) {
            return bytes >= 0 ? bytes : sectors * size;
        }
    }

    private PartListFile() {
    }

    /** The entries in the order of the disk; none overlap. */
    static List<Entry> read(Path list, Texts texts) throws ImageException {
        List<Entry> entries = new ArrayList<>();
        try (LineSource lines = new LineSource(Files.newInputStream(list))) {
            if (lines.utf16()) {
                throw texts.refusal("text.utf16", list);
            }
            while (lines.advance()) {
                String line = lines.text();
                if (!line.isBlank() && !line.stripLeading().startsWith("#")) {
                    Entry entry = entry(list, lines.number(), line, entries.isEmpty(), texts);
                    if (entry != null) {
                        entries.add(entry);
                    }
                }
                if (entries.size() > MOST_PARTS) {
                    throw texts.refusal("list.too-long", list, MOST_PARTS);
                }
            }
        } catch (IOException e) {
            throw FileRefusal.of(texts, list, e);
        }
        if (entries.isEmpty()) {
            throw texts.refusal("list.empty", list);
        }
        int size = sectorSize(entries);
        entries.sort((a, b) -> Long.compare(a.start(size), b.start(size)));
        for (int i = 1; i < entries.size(); i++) {
            if (entries.get(i).start(size) < entries.get(i - 1).start(size) + entries.get(i - 1).length(size)) {
                throw texts.refusal("list.overlap", list, entries.get(i).line, entries.get(i - 1).line, entries.get(i).first);
            }
        }
        return entries;
    }

    private static Entry entry(Path list, long number, String line, boolean first, Texts texts) throws ImageException {
        CSVRecord fields;
        try (var parser = CSVFormat.RFC4180.builder().setTrim(true).build().parse(new StringReader(line))) {
            fields = parser.getRecords().get(0);
        } catch (IOException | UncheckedIOException | IndexOutOfBoundsException | IllegalStateException e) {
            throw texts.refusal("list.fields", list, number, line);
        }
        if (fields.size() < 3 || fields.get(2).isBlank()) {
            throw texts.refusal("list.fields", list, number, line);
        }
        if (first && fields.get(0).equalsIgnoreCase("first_lba")) {
            return null;
        }
        try {
            long lba = Long.parseLong(fields.get(0));
            long sectors = Long.parseLong(fields.get(1));
            if (lba < 0 || sectors < 1 || lba > (Long.MAX_VALUE >> 13) - sectors) {
                throw new NumberFormatException();
            }
            Path file = list.toAbsolutePath().resolveSibling(fields.get(2)).normalize();
            if (fields.size() < 5 || fields.get(3).isBlank()) {
                return new Entry(number, lba, sectors, file, -1, -1);
            }
            long at = Long.parseLong(fields.get(3));
            long bytes = Long.parseLong(fields.get(4));
            if (at < 0 || bytes < 1 || at > Long.MAX_VALUE - bytes) {
                throw new NumberFormatException();
            }
            return new Entry(number, lba, sectors, file, at, bytes);
        } catch (NumberFormatException | InvalidPathException e) {
            throw texts.refusal("list.number", list, number, line);
        }
    }

    /** The sector size at which the most files have exactly the sectors that the list says. */
    static int sectorSize(List<Entry> entries) {
        int best = SIZES[0];
        long most = -1;
        for (int size : SIZES) {
            long fitting = entries.stream().filter(e -> e.bytes < 0 ? e.file.toFile().length() == e.sectors * size : e.firstByte / size == e.first).count();
            if (fitting > most) {
                best = size;
                most = fitting;
            }
        }
        return best;
    }
}
