package sectorglass.image;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Reads a text log line by line, in bounded memory. */
final class TextLogReader {
    private static final int REMARKS = 20;
    private static final int MOST_FIELDS = 256;
    private static final int SHOWN = 80;

    private final TextLog log;
    private final Path file;
    private final Texts texts;
    private final char delimiter;
    private final int[] starts = new int[MOST_FIELDS];
    private final int[] ends = new int[MOST_FIELDS];
    private LineSource lines;
    private int fields;
    /** What {@link #parse} found. */
    private long start;
    private long length;
    private ReadState state;

    TextLogReader(TextLog log, Path file, Texts texts) {
        if (log.stateColumn() == 0 && log.otherWords() == null) {
            throw new IllegalArgumentException("stateColumn=0 otherWords=null");
        }
        this.log = log;
        this.file = file;
        this.texts = texts;
        this.delimiter = log.delimiter().charAt(0);
    }

    List<TextLog.Line> preview(int most) throws ImageException {
        List<TextLog.Line> shown = new ArrayList<>();
        try (LineSource source = open()) {
            lines = source;
            while (shown.size() < most && lines.advance()) {
                boolean taken = taken();
                split();
                String problem = taken ? parse() : null;
                List<String> texts = new ArrayList<>();
                for (int i = 0; i < fields; i++) {
                    texts.add(shown(i));
                }
                boolean good = taken && problem == null;
                shown.add(new TextLog.Line(lines.number(), texts, good ? start : -1, good ? length : 0, good ? state : null, problem));
            }
        } catch (IOException e) {
            throw FileRefusal.of(texts, file, e);
        }
        return shown;
    }

    /** @param growing whether a last line without an end that cannot be read is left out */
    TextLog.Loaded load(int sectorSize, boolean growing, Progress progress) throws ImageException {
        StateCollector collector = new StateCollector(StateCollector.Rule.LATER);
        LogRuns runs = new LogRuns(collector, log.unit() == TextLog.Unit.BYTES ? sectorSize : 1);
        List<String> remarks = new ArrayList<>();
        long taken = 0;
        long bad = 0;
        try (LineSource source = open()) {
            lines = source;
            while (lines.advance()) {
                if ((lines.number() & 0xFFFF) == 0) {
                    progress.checkCancelled();
                    progress.at(file.toString(), lines.number(), 0);
                }
                if (!taken()) {
                    continue;
                }
                split();
                String problem = parse();
                if (problem == null) {
                    runs.add(start, length, state, lines.number());
                    taken++;
                    continue;
                }
                if (growing && lines.unfinished()) {
                    continue;
                }
                bad++;
                String sentence = texts.of("log.line", file, lines.number(), problem);
                if (!log.tolerant()) {
                    throw new ImageException(sentence);
                }
                if (remarks.size() < REMARKS) {
                    remarks.add(sentence);
                }
            }
        } catch (IOException e) {
            throw FileRefusal.of(texts, file, e);
        }
        if (taken == 0) {
            throw texts.refusal("log.empty", file);
        }
        runs.flush();
        ReadMap map = collector.build();
        if (bad > remarks.size()) {
            remarks.add(texts.of("log.more", file, bad - remarks.size()));
        }
        if (collector.overlapLba() >= 0) {
            remarks.add(texts.of("log.overlap", file, collector.overlapLine(), collector.overlapLba(), collector.overlapped()));
        }
        if (map.silent() > 0) {
            remarks.add(texts.of("map.silent", file, map.silent(), map.firstSilent()));
        }
        return new TextLog.Loaded(map, taken, bad, remarks);
    }

    private LineSource open() throws IOException, ImageException {
        LineSource source = new LineSource(Files.newInputStream(file));
        if (source.utf16()) {
            source.close();
            throw texts.refusal("text.utf16", file);
        }
        return source;
    }

    /** Whether the current line is to be read. */
    private boolean taken() {
        if (lines.number() <= log.skippedLines()) {
            return false;
        }
        int at = 0;
        while (at < lines.length() && lines.at(at) <= ' ') {
            at++;
        }
        if (at == lines.length()) {
            return false;
        }
        return log.comment().isEmpty() || !lines.text(at, Math.min(lines.length(), at + 4 * log.comment().length())).startsWith(log.comment());
    }

    private void split() {
        fields = 0;
        int length = lines.length();
        int at = 0;
        boolean blanks = delimiter == ' ';
        while (at <= length && fields < MOST_FIELDS) {
            while (at < length && isBlank(lines.at(at)) && (blanks || lines.at(at) != delimiter)) {
                at++;
            }
            if (at == length && blanks) {
                return;
            }
            boolean quoted = at < length && lines.at(at) == '"';
            int from = quoted ? at + 1 : at;
            at = from;
            while (at < length && (quoted ? lines.at(at) != '"' : !delimits(lines.at(at), blanks))) {
                at++;
            }
            int to = at;
            while (at < length && !delimits(lines.at(at), blanks)) {
                at++;
            }
            while (!quoted && to > from && isBlank(lines.at(to - 1))) {
                to--;
            }
            starts[fields] = from;
            ends[fields++] = to;
            at++;
        }
    }

    private static boolean isBlank(int b) {
        return b == ' ' || b == '\t';
    }

    private boolean delimits(int b, boolean blanks) {
        return blanks ? isBlank(b) : b == delimiter;
    }

    /** Reads the fields of the current line; the problem in words, or null. */
    private String parse() {
        if (lines.tooLong()) {
            return texts.of("log.too-long");
        }
        int needed = Math.max(log.startColumn(), Math.max(log.sizeColumn(), log.stateColumn()));
        if (fields < needed) {
            return texts.of("log.fields", fields, needed);
        }
        start = number(log.startColumn() - 1);
        if (start < 0) {
            return texts.of("log.number", log.startColumn(), log.numberBase(), shown(log.startColumn() - 1));
        }
        length = 1;
        if (log.sizeColumn() > 0) {
            long size = number(log.sizeColumn() - 1);
            if (size < 0) {
                return texts.of("log.number", log.sizeColumn(), log.numberBase(), shown(log.sizeColumn() - 1));
            }
            length = switch (log.size()) {
                case LENGTH -> size;
                case LAST -> size < start ? -1 : size - start == Long.MAX_VALUE ? Long.MAX_VALUE : size - start + 1;
                case END -> size - start;
            };
            if (length < 0) {
                return texts.of("log.backwards", size, start);
            }
        }
        if (start > Long.MAX_VALUE - length) {
            return texts.of("log.too-large", start, length);
        }
        state = log.stateColumn() == 0 ? log.otherWords() : word(log.stateColumn() - 1);
        return state == null ? texts.of("log.word", log.stateColumn(), shown(log.stateColumn() - 1)) : null;
    }

    private ReadState word(int field) {
        String word = lines.text(starts[field], ends[field]).toLowerCase(Locale.ROOT);
        ReadState known = log.words().get(word);
        return known == null ? log.otherWords() : known;
    }

    /** The number in a field, or -1 where it holds none. */
    private long number(int field) {
        int at = starts[field];
        int end = ends[field];
        int base = log.numberBase();
        if (base == 16 && end - at > 2 && lines.at(at) == '0' && (lines.at(at + 1) | 32) == 'x') {
            at += 2;
        }
        long value = at == end ? -1 : 0;
        for (; at < end; at++) {
            int digit = Character.digit(lines.at(at), base);
            if (digit < 0 || value > (Long.MAX_VALUE - digit) / base) {
                return -1;
            }
            value = value * base + digit;
        }
        return value;
    }

    private String shown(int field) {
        String text = lines.text(starts[field], Math.min(ends[field], starts[field] + SHOWN));
        return SafeText.of(text);
    }
}
