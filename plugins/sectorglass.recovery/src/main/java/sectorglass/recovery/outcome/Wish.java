package sectorglass.recovery.outcome;

import java.time.LocalDate;
import java.util.Locale;

import sectorglass.disk.FileStamp;
import sectorglass.disk.FileTree;
import sectorglass.recovery.PathPattern;

/**
 * What a customer wants, as they put it; everything that is given must hold for a file. Capitals do not matter.
 *
 * @param line in the file it came from
 * @param name part of a file's name, or a pattern with {@code *} and {@code ?}; empty for any
 * @param folder name of a folder at any depth above the file, part of a path with {@code /}, or a pattern; empty for any
 * @param kind kind of file, or null for any
 * @param from first day of the last change, or null
 * @param to last day of it, or null; a file without a date is no answer to a wish with dates
 * @param note the customer's words, shown beside the answer
 */
public record Wish(int line, String name, String folder, FileKind kind, LocalDate from, LocalDate to, String note) {

    /** Whether the wish says anything. */
    public boolean empty() {
        return name.isEmpty() && folder.isEmpty() && kind == null && from == null && to == null;
    }

    /** Finds the files of a tree that the wish means. For one thread. */
    public Finder finder(FileTree tree) {
        return new Finder(tree);
    }

    /** Finds the files that a wish means. */
    public final class Finder {
        private final FileTree tree;
        private final PathPattern namePattern = pattern(name);
        private final PathPattern folderPattern = pattern(folder);
        private final String nameLower = name.toLowerCase(Locale.ROOT);
        private final String folderLower = trim(folder).toLowerCase(Locale.ROOT);
        private final byte[] under;

        private Finder(FileTree tree) {
            this.tree = tree;
            this.under = new byte[folder.isEmpty() ? 0 : tree.size()];
        }

        private static PathPattern pattern(String text) {
            return text.indexOf('*') >= 0 || text.indexOf('?') >= 0 ? new PathPattern(text) : null;
        }

        private static String trim(String text) {
            String open = text.startsWith("/") ? text.substring(1) : text;
            return open.endsWith("/") ? open.substring(0, open.length() - 1) : open;
        }

        /** Whether a file, not a folder, is meant. Asks the cheap things first. */
        public boolean means(int entry) {
            String own = tree.name(entry);
            if (kind != null && FileKind.of(own) != kind || !dated(entry)) {
                return false;
            }
            boolean named = name.isEmpty() || (namePattern == null ? own.toLowerCase(Locale.ROOT).contains(nameLower)
                    : namePattern.matches(name.contains("/") ? tree.path(entry) : own));
            return named && (folder.isEmpty() || below(tree.parent(entry)));
        }

        private boolean dated(int entry) {
            if (from == null && to == null) {
                return true;
            }
            FileStamp stamp = tree.modified(entry);
            LocalDate day = stamp == null ? null : stamp.local().toLocalDate();
            return day != null && (from == null || !day.isBefore(from)) && (to == null || !day.isAfter(to));
        }

        /** Whether a folder is the wanted one or lies below it: found upwards, and kept for all folders on the way. */
        private boolean below(int start) {
            byte answer = 1;
            int at = start;
            for (int steps = 0; at >= 0 && steps < 4096; at = tree.parent(at), steps++) {
                if (under[at] != 0) {
                    answer = under[at];
                    break;
                }
                if (at != tree.root() && wanted(at)) {
                    answer = 2;
                    break;
                }
            }
            for (int to = start, steps = 0; to >= 0 && to != at && steps < 4096; to = tree.parent(to), steps++) {
                under[to] = answer;
            }
            if (at >= 0) {
                under[at] = answer;
            }
            return answer == 2;
        }

        private boolean wanted(int at) {
            if (folderPattern != null) {
                return folderPattern.matches(tree.path(at));
            }
            if (!folderLower.contains("/")) {
                return tree.name(at).equalsIgnoreCase(folderLower);
            }
            String path = tree.path(at).toLowerCase(Locale.ROOT);
            return path.equals(folderLower) || path.endsWith("/" + folderLower);
        }
    }
}
