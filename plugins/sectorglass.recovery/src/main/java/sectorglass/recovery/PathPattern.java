package sectorglass.recovery;

import java.util.regex.Pattern;

/**
 * A pattern for paths, without regard to capitals: {@code *} is any part of a name, {@code **} any folders, {@code ?} one character. A
 * pattern without a slash is about the name alone, at any depth.
 */
public final class PathPattern {
    private final String text;
    private final Pattern pattern;
    /** The first folder, where it is plain text: {@code Windows} of {@code /Windows/Temp/**}. */
    private final String first;
    /** A folder that must stand somewhere, where it is plain text: {@code Cache} of {@code **}{@code /Cache/**}. */
    private final String folder;
    /** The name, of a pattern that is about nothing else. */
    private final Pattern name;

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
        String[] parts = plain.split("/");
        first = parts.length > 1 && plain(parts[0]) ? parts[0] : null;
        folder = first == null && parts.length > 2 && parts[0].equals("**") && plain(parts[1]) ? parts[1] : null;
        name = plain.contains("/") ? null : pattern;
    }

    /**
     * Whether an entry may be meant, told by its name and depth alone; much faster than putting its path together.
     *
     * @return false only where {@link #matches} is false, too
     */
    public boolean mayMatch(sectorglass.disk.FileTree tree, int entry) {
        if (first != null) {
            int at = entry;
            for (int steps = 0; steps < 4096; steps++) {
                int parent = tree.parent(at);
                if (parent < 0) {
                    return false;
                }
                if (parent == tree.root()) {
                    return first.equalsIgnoreCase(tree.name(at));
                }
                at = parent;
            }
        }
        if (folder != null) {
            for (int at = entry, steps = 0; at >= 0 && steps < 4096; at = tree.parent(at), steps++) {
                if (folder.equalsIgnoreCase(tree.name(at))) {
                    return true;
                }
            }
            return false;
        }
        return name == null || name.matcher(tree.name(entry)).matches() || tree.name(entry).indexOf('/') >= 0;
    }

    /** Whether the path, relative to the volume's root, is meant. */
    public boolean matches(String path) {
        return pattern.matcher(path).matches();
    }

    /** Text without signs that mean something, and without what a path spells out. */
    private static boolean plain(String part) {
        return !part.isEmpty() && part.chars().allMatch(c -> c < 0x7F && c > 0x20 && c != '*' && c != '?' && c != '\\');
    }

    @Override
    public String toString() {
        return text;
    }
}
