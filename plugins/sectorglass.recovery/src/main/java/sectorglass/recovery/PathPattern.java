package sectorglass.recovery;

import java.util.regex.Pattern;

/**
 * A pattern for paths, without regard to capitals: {@code *} is any part of a name, {@code **} any folders, {@code ?} one character. A
 * pattern without a slash is about the name alone, at any depth.
 */
public final class PathPattern {
    private final String text;
    private final Pattern pattern;

    /** @param text the pattern as the person gave it */
    public PathPattern(String text) {
        this.text = text;
        String plain = text.startsWith("/") ? text.substring(1) : text;
        StringBuilder regex = new StringBuilder(plain.contains("/") ? "" : "(?:.*/)?");
        for (int i = 0; i < plain.length(); i++) {
            char c = plain.charAt(i);
            if (c == '*' && i + 1 < plain.length() && plain.charAt(i + 1) == '*') {
                boolean folder = i + 2 < plain.length() && plain.charAt(i + 2) == '/';
                regex.append(folder ? "(?:.*/)?" : ".*");
                i += folder ? 2 : 1;
            } else if (c == '*') {
                regex.append("[^/]*");
            } else if (c == '?') {
                regex.append("[^/]");
            } else {
                regex.append(Pattern.quote(String.valueOf(c)));
            }
        }
        pattern = Pattern.compile(regex.toString(), Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE | Pattern.DOTALL);
    }

    /** Whether the path, relative to the volume's root, is meant. */
    public boolean matches(String path) {
        return pattern.matcher(path).matches();
    }

    @Override
    public String toString() {
        return text;
    }
}
