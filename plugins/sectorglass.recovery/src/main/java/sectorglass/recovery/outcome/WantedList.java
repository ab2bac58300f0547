package sectorglass.recovery.outcome;

import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * The list of what a customer wants most: CSV with a title line and any of the columns name, folder, kind, from, to, note; see docs/files.md. A
 * line is a wish.
 */
public record WantedList(List<Wish> wishes) {
    private static final Set<String> COLUMNS = Set.of("name", "folder", "kind", "from", "to", "note");
    private static final int MOST = 10_000;
    private static final long LARGEST = 16L << 20;

    /**
     * Reads a list.
     *
     * @throws IOException with a sentence for people, and the line, where the file is none
     */
    public static WantedList load(Path file) throws IOException {
        if (Files.size(file) > LARGEST) {
            throw new IOException(file + " is too large for a wanted list (16 MiB).");
        }
        List<Wish> wishes = new ArrayList<>();
        CSVFormat form = CSVFormat.RFC4180.builder().setCommentMarker('#').setIgnoreEmptyLines(true).setTrim(true).build();
        try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8); CSVParser lines = form.parse(in)) {
            Map<String, Integer> columns = null;
            for (CSVRecord record : lines) {
                if (columns == null) {
                    columns = columns(file, record);
                } else {
                    Wish wish = wish(file, columns, record, (int) lines.getCurrentLineNumber());
                    if (wish.empty() && wish.note().isEmpty()) {
                        continue;
                    }
                    if (wish.empty()) {
                        throw wrong(file, wish.line(), "names nothing: give a name, a folder, a kind or dates");
                    }
                    wishes.add(wish);
                    if (wishes.size() > MOST) {
                        throw wrong(file, wish.line(), "is one too many (" + MOST + " at most)");
                    }
                }
            }
        } catch (java.nio.charset.CharacterCodingException e) {
            throw new IOException(file + " is no text in UTF-8.", e);
        } catch (java.io.UncheckedIOException | IllegalStateException e) {
            throw new IOException(file + " is no CSV: " + e.getMessage(), e);
        }
        return new WantedList(List.copyOf(wishes));
    }

    private static Map<String, Integer> columns(Path file, CSVRecord title) throws IOException {
        Map<String, Integer> columns = new TreeMap<>();
        for (int i = 0; i < title.size(); i++) {
            columns.put(title.get(i).replace("\uFEFF", "").strip().toLowerCase(Locale.ROOT), i);
        }
        if (columns.keySet().stream().noneMatch(COLUMNS::contains)) {
            throw new IOException(file + " begins without a title line; its columns are name, folder, kind, from, to, note.");
        }
        return columns;
    }

    private static Wish wish(Path file, Map<String, Integer> columns, CSVRecord record, int line) throws IOException {
        String kindWord = cell(columns, record, "kind");
        FileKind kind = kindWord.isEmpty() ? null : FileKind.ofWord(kindWord);
        if (!kindWord.isEmpty() && kind == null) {
            throw wrong(file, line, "has the kind \"" + kindWord + "\"; kinds are "
                    + String.join(", ", java.util.Arrays.stream(FileKind.values()).map(FileKind::word).toList()));
        }
        LocalDate from = day(file, line, cell(columns, record, "from"));
        LocalDate to = day(file, line, cell(columns, record, "to"));
        if (from != null && to != null && to.isBefore(from)) {
            throw wrong(file, line, "ends (" + to + ") before it begins (" + from + ")");
        }
        return new Wish(line, cell(columns, record, "name"), cell(columns, record, "folder"), kind, from, to, cell(columns, record, "note"));
    }

    private static String cell(Map<String, Integer> columns, CSVRecord record, String column) {
        Integer at = columns.get(column);
        return at == null || at >= record.size() ? "" : record.get(at).strip();
    }

    private static LocalDate day(Path file, int line, String text) throws IOException {
        try {
            return text.isEmpty() ? null : LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw wrong(file, line, "has the date \"" + text + "\"; dates are written 2026-01-31");
        }
    }

    private static IOException wrong(Path file, int line, String what) {
        return new IOException(file + ", line " + line + ", " + what + ".");
    }
}
