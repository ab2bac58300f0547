package sectorglass.practice.lesson.read;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import sectorglass.practice.lesson.LessonPack;
import sectorglass.practice.lesson.LessonProblem;

/** A file of lines {@code key: value}, cut into blocks. */
final class KeyFile {
    /** Version of the format. */
    static final String FORMAT = "1";
    /** Larger files are no lessons. */
    private static final int MOST_BYTES = 1 << 20;
    private static final Pattern LINE = Pattern.compile("(?<key>[a-z][a-z-]*)(?: (?<language>[a-z]{2}))?:(?: (?<value>.*))?");

    private final String name;
    private final List<LessonProblem> problems;

    KeyFile(String name, List<LessonProblem> problems) {
        this.name = name;
        this.problems = problems;
    }

    /** Blocks of a file; each begins with a line of one of these keys, the first one with the file. */
    List<Block> read(LessonPack pack, Set<String> beginners) {
        try (InputStream in = pack.open(name)) {
            byte[] bytes = in.readNBytes(MOST_BYTES + 1);
            if (bytes.length > MOST_BYTES) {
                problem(1, "The file has more than " + MOST_BYTES + " bytes. Divide it.");
                return List.of();
            }
            return blocks(lines(StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString()), beginners);
        } catch (CharacterCodingException e) {
            problem(1, "The file is not UTF-8 text. Save it as UTF-8.");
        } catch (IOException e) {
            problem(1, "The file cannot be read: " + e.getMessage() + ".");
        }
        return List.of();
    }

    private void problem(int line, String sentence) {
        problems.add(new LessonProblem(name, line, sentence));
    }

    private List<KeyLine> lines(String text) {
        List<KeyLine> found = new ArrayList<>();
        String[] lines = (text.startsWith("\uFEFF") ? text.substring(1) : text).split("\\R", -1);
        for (int i = 0; i < lines.length; i++) {
            String line = lines[i];
            if (line.isBlank() || line.startsWith("#")) {
                continue;
            }
            if (Character.isWhitespace(line.charAt(0))) {
                if (found.isEmpty()) {
                    problem(i + 1, "An indented line goes on with the line above, and there is none. Take the blanks away.");
                    continue;
                }
                KeyLine above = found.remove(found.size() - 1);
                found.add(new KeyLine(above.key(), above.language(), (above.value() + " " + line.strip()).strip(), above.line()));
                continue;
            }
            Matcher matcher = LINE.matcher(line.stripTrailing());
            if (!matcher.matches()) {
                problem(i + 1, "\"" + line.strip() + "\" is no line of the form \"key: value\". A line that goes on is indented.");
                continue;
            }
            String value = matcher.group("value");
            found.add(new KeyLine(matcher.group("key"), matcher.group("language"), value == null ? "" : value.strip(), i + 1));
        }
        return found;
    }

    private List<Block> blocks(List<KeyLine> lines, Set<String> beginners) {
        List<Block> blocks = new ArrayList<>();
        List<KeyLine> open = new ArrayList<>();
        for (KeyLine line : lines) {
            if (beginners.contains(line.key()) && line.language() == null) {
                blocks.add(new Block(name, open, problems));
                open = new ArrayList<>();
            }
            open.add(line);
        }
        blocks.add(new Block(name, open, problems));
        KeyLine format = blocks.get(0).line("format", true);
        if (format != null && !format.value().equals(FORMAT)) {
            problem(format.line(), "The format \"" + format.value() + "\" is not known; this program reads format " + FORMAT + ".");
        }
        return blocks;
    }
}
