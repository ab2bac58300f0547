package sectorglass.volumes;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The metadata text of an LVM2 volume group: names with sections, numbers, strings and lists. Source: LVM2 text format (vgcfgbackup(8)).
 * The text is hostile: depth and number of entries are limited.
 */
final class LvmText {
    private static final int DEEPEST = 8;
    private static final int MOST = 200_000;

    private final String text;
    private int at;
    private int entries;

    private LvmText(String text) {
        this.text = text;
    }

    /**
     * The sections and values of a text.
     *
     * @return values are {@link Long}, {@link String}, {@code List<Object>} or {@code Map<String, Object>}
     * @throws IllegalArgumentException where it is not such a text
     */
    static Map<String, Object> parse(String text) {
        LvmText reader = new LvmText(text);
        Map<String, Object> all = reader.section(0);
        reader.blank();
        if (reader.at < text.length()) {
            throw reader.wrong();
        }
        return all;
    }

    private IllegalArgumentException wrong() {
        return new IllegalArgumentException("no LVM2 metadata text at character " + at);
    }

    private Map<String, Object> section(int depth) {
        Map<String, Object> values = new LinkedHashMap<>();
        for (blank(); at < text.length() && text.charAt(at) != '}'; blank()) {
            String name = word();
            if (++entries > MOST || name.isEmpty() || depth > DEEPEST) {
                throw wrong();
            }
            blank();
            char next = next();
            if (next == '{') {
                values.put(name, section(depth + 1));
                blank();
                if (next() != '}') {
                    throw wrong();
                }
            } else if (next == '=') {
                values.put(name, value(depth));
            } else {
                throw wrong();
            }
        }
        return values;
    }

    private Object value(int depth) {
        if (depth > DEEPEST) {
            throw wrong();
        }
        blank();
        char first = next();
        if (first == '"') {
            return string();
        }
        if (first == '[') {
            List<Object> list = new ArrayList<>();
            for (blank(); peek() != ']'; blank()) {
                if (++entries > MOST) {
                    throw wrong();
                }
                list.add(value(depth + 1));
                blank();
                if (peek() == ',') {
                    at++;
                } else if (peek() != ']') {
                    throw wrong();
                }
            }
            at++;
            return list;
        }
        at--;
        String number = word();
        try {
            return number.indexOf('.') >= 0 ? number : (Object) Long.valueOf(number);
        } catch (NumberFormatException e) {
            throw wrong();
        }
    }

    private String string() {
        StringBuilder found = new StringBuilder();
        for (char c = next(); c != '"'; c = next()) {
            found.append(c == '\\' ? next() : c);
        }
        return found.toString();
    }

    private String word() {
        int from = at;
        while (at < text.length() && (Character.isLetterOrDigit(text.charAt(at)) || "_.+-".indexOf(text.charAt(at)) >= 0)) {
            at++;
        }
        return text.substring(from, at);
    }

    private void blank() {
        while (at < text.length()) {
            char c = text.charAt(at);
            if (c == '#') {
                int end = text.indexOf('\n', at);
                at = end < 0 ? text.length() : end;
            } else if (c <= ' ') {
                at++;
            } else {
                return;
            }
        }
    }

    private char peek() {
        if (at >= text.length()) {
            throw wrong();
        }
        return text.charAt(at);
    }

    private char next() {
        char c = peek();
        at++;
        return c;
    }
}
