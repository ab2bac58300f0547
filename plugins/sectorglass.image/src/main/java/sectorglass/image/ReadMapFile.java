package sectorglass.image;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.apache.commons.csv.CSVFormat;

/**
 * The read map file: CSV with the columns {@code first_lba,sectors,state[,head]}, described in docs/files.md. A title line is
 * optional and may put the columns in another order; empty lines and lines that begin with {@code #} are left out.
 */
final class ReadMapFile {
    private static final List<String> COLUMNS = List.of("first_lba", "sectors", "state", "head");
    private static final byte[][] WORDS = new byte[ReadState.values().length][];

    static {
        for (ReadState state : ReadState.values()) {
            WORDS[state.ordinal()] = state.word().getBytes(StandardCharsets.US_ASCII);
        }
    }

    private final Path file;
    private final LineSource lines;
    private final Texts texts;
    private final StateCollector collector = new StateCollector(StateCollector.Rule.CAREFUL);
    /** Position of first_lba, sectors, state and head in a line. */
    private final int[] order = {0, 1, 2, 3};
    private final int[] starts = new int[8];
    private final int[] ends = new int[8];
    private boolean allMultiples = true;

    private ReadMapFile(Path file, LineSource lines, Texts texts) {
        this.file = file;
        this.lines = lines;
        this.texts = texts;
    }

    /**
     * What a file held.
     *
     * @param map the states
     * @param remarks in words: overlaps, sectors not mentioned
     * @param allMultiples whether every number in it is a multiple of 512, as if bytes had been written for sectors
     */
    record Loaded(ReadMap map, List<String> remarks, boolean allMultiples) { }

    static Loaded read(Path file, Locale locale) throws ImageException {
        Texts texts = new Texts(locale);
        try (LineSource lines = new LineSource(Files.newInputStream(file))) {
            if (lines.utf16()) {
                throw texts.refusal("text.utf16", file);
            }
            return new ReadMapFile(file, lines, texts).read();
        } catch (IOException e) {
            throw FileRefusal.of(texts, file, e);
        }
    }

    private Loaded read() throws IOException, ImageException {
        boolean title = true;
        while (lines.advance()) {
            if (blankOrComment()) {
                continue;
            }
            if (lines.tooLong()) {
                throw texts.refusal("map.line-too-long", file, lines.number());
            }
            int fields = split();
            if (title && fields > 0 && title(fields)) {
                title = false;
                continue;
            }
            title = false;
            if (fields < 3) {
                slow();
            } else {
                take(fields);
            }
        }
        if (collector.isEmpty()) {
            throw texts.refusal("map.empty", file);
        }
        ReadMap map = collector.build();
        List<String> remarks = new ArrayList<>();
        if (collector.overlapLba() >= 0) {
            remarks.add(texts.of("map.overlap", file, collector.overlapLine(), collector.overlapLba(), collector.overlapped()));
        }
        if (map.silent() > 0) {
            remarks.add(texts.of("map.silent", file, map.silent(), map.firstSilent()));
        }
        return new Loaded(map, remarks, allMultiples);
    }

    private boolean blankOrComment() {
        for (int i = 0; i < lines.length(); i++) {
            int b = lines.at(i);
            if (b != ' ' && b != '\t') {
                return b == '#';
            }
        }
        return true;
    }

    /** Finds the fields of a line without quotes, blanks around them left out; their number, or 0 where it needs the long way. */
    private int split() {
        int fields = 0;
        int start = 0;
        int length = lines.length();
        for (int i = 0; i <= length; i++) {
            int b = i == length ? ',' : lines.at(i);
            if (b == '"' || fields == starts.length) {
                return 0;
            }
            if (b == ',') {
                int from = start;
                int to = i;
                while (from < to && lines.at(from) <= ' ') {
                    from++;
                }
                while (to > from && lines.at(to - 1) <= ' ') {
                    to--;
                }
                starts[fields] = from;
                ends[fields++] = to;
                start = i + 1;
            }
        }
        return fields;
    }

    private boolean title(int fields) throws ImageException {
        int[] found = {-1, -1, -1, -1};
        for (int i = 0; i < fields; i++) {
            int column = COLUMNS.indexOf(lines.text(starts[i], ends[i]).toLowerCase(Locale.ROOT));
            if (column >= 0) {
                found[column] = i;
            }
        }
        if (found[0] < 0 && found[1] < 0 && found[2] < 0) {
            return false;
        }
        for (int column = 0; column < 3; column++) {
            if (found[column] < 0) {
                throw texts.refusal("map.column", file, lines.number(), COLUMNS.get(column));
            }
        }
        System.arraycopy(found, 0, order, 0, 4);
        return true;
    }

    private void take(int fields) throws ImageException {
        int needed = Math.max(order[0], Math.max(order[1], order[2]));
        if (needed >= fields) {
            throw texts.refusal("map.fields", file, lines.number(), lines.text());
        }
        long first = number(order[0], "first_lba");
        long sectors = number(order[1], "sectors");
        int state = state(order[2]);
        if (state < 0) {
            throw texts.refusal("map.state", file, lines.number(), lines.text(starts[order[2]], ends[order[2]]));
        }
        int head = ReadMap.NO_HEAD;
        if (order[3] >= 0 && order[3] < fields && ends[order[3]] > starts[order[3]]) {
            long given = number(order[3], "head");
            if (given > ReadMap.MOST_HEADS) {
                throw texts.refusal("map.number", file, lines.number(), "head", lines.text(starts[order[3]], ends[order[3]]));
            }
            head = (int) given;
        }
        add(first, sectors, ReadState.values()[state], head);
    }

    private void add(long first, long sectors, ReadState state, int head) throws ImageException {
        if (first > Long.MAX_VALUE - sectors) {
            throw texts.refusal("map.too-large", file, lines.number(), first, sectors);
        }
        allMultiples &= ((first | sectors) & 511) == 0;
        collector.add(first, sectors, state, head, lines.number());
    }

    private long number(int field, String column) throws ImageException {
        long value = 0;
        int from = starts[field];
        int to = ends[field];
        boolean good = to > from;
        for (int i = from; good && i < to; i++) {
            int digit = lines.at(i) - '0';
            good = digit >= 0 && digit <= 9 && value <= (Long.MAX_VALUE - digit) / 10;
            value = value * 10 + digit;
        }
        if (!good) {
            throw texts.refusal("map.number", file, lines.number(), column, lines.text(from, to));
        }
        return value;
    }

    private int state(int field) {
        int length = ends[field] - starts[field];
        for (int state = 0; state < WORDS.length; state++) {
            byte[] word = WORDS[state];
            boolean same = word.length == length;
            for (int i = 0; same && i < length; i++) {
                same = Character.toLowerCase(lines.at(starts[field] + i)) == word[i];
            }
            if (same) {
                return state;
            }
        }
        return -1;
    }

    /** A line with quotes or too few fields. */
    private void slow() throws ImageException {
        List<String> fields;
        try (var parser = CSVFormat.RFC4180.builder().setTrim(true).build().parse(new StringReader(lines.text()))) {
            fields = parser.getRecords().get(0).toList();
        } catch (IOException | UncheckedIOException | IndexOutOfBoundsException | IllegalStateException e) {
            throw texts.refusal("map.fields", file, lines.number(), lines.text());
        }
        if (fields.size() < 3 || fields.stream().anyMatch(field -> field.contains(",") || field.contains("\""))) {
            throw texts.refusal("map.fields", file, lines.number(), lines.text());
        }
        lines.replace(String.join(",", fields));
        take(split());
    }

    static void write(ReadMap map, Path file) throws IOException {
        boolean heads = hasHeads(map);
        try (BufferedWriter out = Files.newBufferedWriter(file)) {
            out.write(String.join(",", heads ? COLUMNS : COLUMNS.subList(0, 3)) + "\n");
            map.visit((first, end, state, head) -> {
                try {
                    out.write(first + "," + (end - first) + "," + state.word());
                    if (heads) {
                        out.write(head == ReadMap.NO_HEAD ? "," : "," + head);
                    }
                    out.write('\n');
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            });
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static boolean hasHeads(ReadMap map) {
        boolean[] any = new boolean[1];
        map.visit((first, end, state, head) -> any[0] |= head != ReadMap.NO_HEAD);
        return any[0];
    }
}
