package sectorglass.image;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * How a delimited text log is read as read states: which column means what. There is no preset for any program; a person looks at
 * {@link #preview} and sets the columns. Start with {@link #DEFAULT}.
 *
 * @param delimiter between fields, one character; a blank stands for any number of blanks and tabs
 * @param skippedLines lines at the beginning that are left out
 * @param comment lines that begin with it are left out; empty: none
 * @param startColumn column of the first sector or byte, from 1
 * @param sizeColumn column of the length or the end, from 1; 0: each line names one sector
 * @param size what the size column holds
 * @param stateColumn column of the word for the state, from 1; 0: every line has the state {@code otherWords}, which must be set then
 * @param numberBase 8, 10 or 16; with 16 a leading 0x is allowed
 * @param unit of starts, lengths and ends
 * @param words states by word, upper and lower case alike
 * @param otherWords state of words that are not in {@code words}; null: they are mistakes
 * @param tolerant whether lines that cannot be read are left out and told; otherwise the first of them stops the reading
 */
public record TextLog(String delimiter, int skippedLines, String comment, int startColumn, int sizeColumn, Size size, int stateColumn,
        int numberBase, Unit unit, Map<String, ReadState> words, ReadState otherWords, boolean tolerant) {

    /** Comma, decimal, start and length in sectors, then the word of a read map. */
    public static final TextLog DEFAULT = new TextLog(",", 0, "#", 1, 2, Size.LENGTH, 3, 10, Unit.SECTORS,
            Map.of("read", ReadState.READ, "failed", ReadState.FAILED, "skipped", ReadState.SKIPPED, "unread", ReadState.UNREAD), null, false);

    /** What the size column holds. */
    public enum Size {
        /** A number of sectors or bytes. */
        LENGTH,
        /** The last sector or byte. */
        LAST,
        /** The sector or byte behind the last. */
        END
    }

    /** What numbers count. */
    public enum Unit {
        /** Sectors of the image. */
        SECTORS,
        /** Bytes; a sector that a line names in part has its state only where the state is not {@link ReadState#READ}. */
        BYTES
    }

    /** @throws IllegalArgumentException for columns, a base or a delimiter that are none */
    public TextLog {
        if (delimiter.length() != 1 || skippedLines < 0 || startColumn < 1 || sizeColumn < 0 || stateColumn < 0
                || numberBase != 8 && numberBase != 10 && numberBase != 16) {
            throw new IllegalArgumentException("delimiter=\"" + delimiter + "\" skippedLines=" + skippedLines + " startColumn=" + startColumn
                    + " sizeColumn=" + sizeColumn + " stateColumn=" + stateColumn + " numberBase=" + numberBase);
        }
        Map<String, ReadState> lower = new TreeMap<>();
        words.forEach((word, state) -> lower.put(word.toLowerCase(Locale.ROOT), state));
        words = Map.copyOf(lower);
    }

    /** With a delimiter. */
    public TextLog withDelimiter(String changed) {
        return new TextLog(changed, skippedLines, comment, startColumn, sizeColumn, size, stateColumn, numberBase, unit, words, otherWords,
                tolerant);
    }

    /** With lines left out at the beginning, and lines left out that begin with a text. */
    public TextLog withSkipped(int lines, String commentBegin) {
        return new TextLog(delimiter, lines, commentBegin, startColumn, sizeColumn, size, stateColumn, numberBase, unit, words, otherWords,
                tolerant);
    }

    /** With the columns of start, length or end, and state. */
    public TextLog withColumns(int start, int sizeAt, Size meaning, int state) {
        return new TextLog(delimiter, skippedLines, comment, start, sizeAt, meaning, state, numberBase, unit, words, otherWords, tolerant);
    }

    /** With a number base and a unit. */
    public TextLog withNumbers(int base, Unit counted) {
        return new TextLog(delimiter, skippedLines, comment, startColumn, sizeColumn, size, stateColumn, base, counted, words, otherWords,
                tolerant);
    }

    /** With words for states, and the state of all other words (null: they are mistakes). */
    public TextLog withWords(Map<String, ReadState> changed, ReadState others) {
        return new TextLog(delimiter, skippedLines, comment, startColumn, sizeColumn, size, stateColumn, numberBase, unit, changed, others,
                tolerant);
    }

    /** With lines that cannot be read left out, or not. */
    public TextLog withTolerant(boolean changed) {
        return new TextLog(delimiter, skippedLines, comment, startColumn, sizeColumn, size, stateColumn, numberBase, unit, words, otherWords,
                changed);
    }

    /**
     * A line as it would be read.
     *
     * @param number of the line, from 1
     * @param fields its fields, safe to show
     * @param start first sector or byte; -1 where the line is left out or cannot be read
     * @param length number of sectors or bytes
     * @param state its state, or null
     * @param problem why it cannot be read, or null
     */
    public record Line(long number, List<String> fields, long start, long length, ReadState state, String problem) { }

    /**
     * What a log held.
     *
     * @param map the states; where lines overlap, the later one counts
     * @param lines number of lines that were taken
     * @param badLines number of lines that could not be read
     * @param remarks in words, the first bad lines among them
     */
    public record Loaded(ReadMap map, long lines, long badLines, List<String> remarks) { }

    /** The first lines of a file as this log reads them; lines left out have no state. Lines before the skipped ones end are shown, too. */
    public List<Line> preview(Path file, int lines, Locale locale) throws ImageException {
        return new TextLogReader(this, file, new Texts(locale)).preview(lines);
    }

    /**
     * Reads a log.
     *
     * @param sectorSize bytes per sector of the image
     * @throws ImageException where the file or, unless {@link #tolerant}, one of its lines cannot be read
     */
    public Loaded load(Path file, int sectorSize, Locale locale, Progress progress) throws ImageException {
        return new TextLogReader(this, file, new Texts(locale)).load(sectorSize, false, progress);
    }

    /** Reads a log that another process may be writing: a last line that is not finished and cannot be read yet is left out. */
    Loaded again(Path file, int sectorSize, Locale locale, Progress progress) throws ImageException {
        return new TextLogReader(this, file, new Texts(locale)).load(sectorSize, true, progress);
    }
}
