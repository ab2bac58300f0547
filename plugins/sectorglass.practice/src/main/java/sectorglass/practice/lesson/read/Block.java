package sectorglass.practice.lesson.read;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

import sectorglass.practice.lesson.LessonProblem;
import sectorglass.practice.lesson.Words;

/** Lines of a file that belong together. Values are taken out one by one; what is left at the end was not understood. */
final class Block {
    private final String file;
    private final List<KeyLine> lines;
    private final List<LessonProblem> problems;
    private final Set<String> known = new LinkedHashSet<>();
    private final int first;

    Block(String file, List<KeyLine> lines, List<LessonProblem> problems) {
        this.file = file;
        this.lines = new ArrayList<>(lines);
        this.problems = problems;
        first = lines.isEmpty() ? 1 : lines.get(0).line();
    }

    /** Line where it begins. */
    int first() {
        return first;
    }

    /** Key of its first line. */
    String beginner() {
        return lines.isEmpty() ? "" : lines.get(0).key();
    }

    void problem(int line, String sentence) {
        problems.add(new LessonProblem(file, line, sentence));
    }

    /** The line of a key, or null; told where it is missing or stands twice. */
    KeyLine line(String key, boolean needed) {
        List<KeyLine> all = lines(key);
        if (all.isEmpty()) {
            if (needed) {
                problem(first, "The line \"" + key + ":\" is missing here.");
            }
            return null;
        }
        if (all.size() > 1) {
            problem(all.get(1).line(), "\"" + key + "\" stands a second time. Keep one of the two.");
        }
        return all.get(0);
    }

    /** All lines of a key. */
    List<KeyLine> lines(String key) {
        known.add(key);
        List<KeyLine> all = lines.stream().filter(line -> line.key().equals(key) && line.language() == null).toList();
        lines.removeAll(all);
        return all;
    }

    /** The value of a key, or null. */
    String value(String key, boolean needed) {
        KeyLine line = line(key, needed);
        if (line == null) {
            return null;
        }
        if (line.value().isEmpty()) {
            problem(line.line(), "Nothing stands after \"" + key + ":\".");
        }
        return line.value();
    }

    /** A name that may become part of a file name; empty where it is missing. */
    String id(String key) {
        KeyLine line = line(key, true);
        if (line != null && !line.value().matches("[a-z0-9]{1,40}(-[a-z0-9]{1,40}){0,9}")) {
            problem(line.line(), "\"" + line.value() + "\" is no name: small letters a to z, digits, and single hyphens between them.");
        }
        return line == null ? "" : line.value();
    }

    /** A number, decimal or with 0x. */
    long number(String key, long otherwise) {
        return number(key, otherwise, Long.MIN_VALUE, Long.MAX_VALUE);
    }

    /** A number, decimal or with 0x, within bounds. */
    long number(String key, long otherwise, long least, long most) {
        KeyLine line = line(key, false);
        if (line == null) {
            return otherwise;
        }
        try {
            String digits = line.value().replace(" ", "");
            long number = digits.startsWith("0x") ? Long.parseUnsignedLong(digits.substring(2), 16) : Long.parseLong(digits);
            if (number < least || number > most) {
                problem(line.line(), "\"" + key + "\" must lie between " + least + " and " + most + ".");
                return otherwise;
            }
            return number;
        } catch (NumberFormatException e) {
            problem(line.line(), "\"" + line.value() + "\" is no number. Write digits, or 0x and hex digits.");
            return otherwise;
        }
    }

    /** A value that is parsed; null where it is missing or wrong. */
    String checked(String key, boolean needed, Function<String, ?> parser) {
        KeyLine line = line(key, needed);
        if (line == null) {
            return null;
        }
        check(line, line.value(), parser);
        return line.value();
    }

    void check(KeyLine line, String value, Function<String, ?> parser) {
        try {
            parser.apply(value);
        } catch (IllegalArgumentException e) {
            problem(line.line(), "In \"" + value + "\" " + e.getMessage() + ".");
        }
    }

    /** A text in its languages, or null. */
    Words words(String key, boolean needed) {
        known.add(key);
        Map<String, String> texts = new LinkedHashMap<>();
        for (KeyLine line : lines.stream().filter(one -> one.key().equals(key)).toList()) {
            lines.remove(line);
            String language = line.language() == null ? "en" : line.language();
            if (texts.put(language, line.value()) != null) {
                problem(line.line(), "\"" + key + "\" stands a second time for the language \"" + language + "\". Keep one of the two.");
            }
            TextCheck.of(line, this);
        }
        if (texts.isEmpty()) {
            if (needed) {
                problem(first, "The line \"" + key + ":\" is missing here.");
            }
            return null;
        }
        if (!texts.containsKey("en")) {
            texts.put("en", texts.values().iterator().next());
        }
        return new Words(texts);
    }

    /** The lines that stand between one key's lines and the next ones: pairs of a value and the words of another key. */
    List<Map.Entry<KeyLine, Words>> pairs(String key, String wordsKey) {
        known.add(key);
        known.add(wordsKey);
        List<Map.Entry<KeyLine, Words>> pairs = new ArrayList<>();
        List<KeyLine> mine = lines.stream().filter(line -> line.key().equals(key) || line.key().equals(wordsKey)).toList();
        lines.removeAll(mine);
        for (int i = 0; i < mine.size();) {
            KeyLine line = mine.get(i++);
            List<KeyLine> below = new ArrayList<>();
            while (i < mine.size() && mine.get(i).key().equals(wordsKey)) {
                below.add(mine.get(i++));
            }
            if (!line.key().equals(key)) {
                problem(line.line(), "\"" + wordsKey + ":\" has no \"" + key + ":\" above it.");
            } else if (below.isEmpty()) {
                problem(line.line(), "Below this line \"" + wordsKey + ":\" is missing.");
            } else {
                pairs.add(Map.entry(line, new Block(file, below, problems).words(wordsKey, true)));
            }
        }
        return pairs;
    }

    /** Tells lines that nobody asked for. */
    void end() {
        for (KeyLine line : lines) {
            problem(line.line(), "\"" + line.key() + "\" has no meaning here. Known here: " + String.join(", ", known) + ".");
        }
    }
}
