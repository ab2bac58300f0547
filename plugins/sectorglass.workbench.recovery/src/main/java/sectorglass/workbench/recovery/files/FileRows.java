package sectorglass.workbench.recovery.files;

import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.IntPredicate;

import sectorglass.disk.Content;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.recovery.PathPattern;
import sectorglass.recovery.outcome.FileKind;

/** The rows of a file tree in the order in which they are shown: folders first, by name; or, filtered, one flat list of all depths. */
final class FileRows {
    /** Folders with more entries keep the volume's own order. */
    private static final int MOST_SORTED = 50_000;

    private final FileTree tree;
    private final int[] flat;
    private final Map<Integer, int[]> children = new HashMap<>();

    private FileRows(FileTree tree, int[] flat) {
        this.tree = tree;
        this.flat = flat;
    }

    /** All entries as a tree. */
    static FileRows of(FileTree tree) {
        return new FileRows(tree, null);
    }

    /**
     * Files that a person looks for, as one list.
     *
     * @param words part of a name, or a pattern with {@code *} or {@code ?}; empty: any
     * @param state wanted state, or null for any; folders have none
     * @param kind wanted kind by the ending of the name, or null for any; folders and structures of the file system have none
     * @param deleted whether deleted ones are wanted
     */
    static FileRows filtered(Files files, FileTree tree, String words, FileState state, FileKind kind, boolean deleted, Progress progress) {
        IntPredicate named = named(tree, words);
        int[][] found = {new int[1024]};
        int[] count = {0};
        tree.walk(tree.root(), (entry, depth) -> {
            progress.checkCancelled();
            boolean wanted = entry != tree.root() && (deleted || !tree.deleted(entry)) && named.test(entry)
                    && (kind == null || !tree.folder(entry) && FileKind.of(tree.name(entry)) == kind && !files.structure(entry))
                    && (state == null || !tree.folder(entry) && state(files, tree, entry) == state);
            if (wanted) {
                if (count[0] == found[0].length) {
                    found[0] = Arrays.copyOf(found[0], count[0] * 2);
                }
                found[0][count[0]++] = entry;
            }
            return true;
        });
        return new FileRows(tree, Arrays.copyOf(found[0], count[0]));
    }

    private static IntPredicate named(FileTree tree, String words) {
        String asked = words.strip();
        if (asked.isEmpty()) {
            return entry -> true;
        }
        if (asked.indexOf('*') >= 0 || asked.indexOf('?') >= 0) {
            PathPattern pattern = new PathPattern(asked);
            return entry -> pattern.matches(tree.path(entry));
        }
        String lower = asked.toLowerCase(Locale.ROOT);
        return entry -> tree.name(entry).toLowerCase(Locale.ROOT).contains(lower);
    }

    /** What was recovered of a file; reads its record where needed. */
    static FileState state(Files files, FileTree tree, int entry) {
        FileState special = tree.entry(entry).special();
        if (special != null) {
            return special;
        }
        Content content = files.content(entry, "");
        return content == null ? FileState.UNKNOWN : content.state();
    }

    /** Whether this is one flat list. */
    boolean isFlat() {
        return flat != null;
    }

    /** Number of rows without a parent. */
    int top() {
        return flat != null ? flat.length : tree.childCount(tree.root());
    }

    /** Id of a row without a parent. */
    int top(int index) {
        return flat != null ? flat[index] : child(tree.root(), index);
    }

    /** Number of rows below an entry. */
    int below(int entry) {
        return flat != null ? 0 : tree.childCount(entry);
    }

    /** Id of a row below an entry. */
    int child(int folder, int index) {
        return children.computeIfAbsent(folder, this::sorted)[index];
    }

    private int[] sorted(int folder) {
        int count = tree.childCount(folder);
        Integer[] ids = new Integer[count];
        for (int i = 0; i < count; i++) {
            ids[i] = tree.child(folder, i);
        }
        if (count <= MOST_SORTED) {
            Map<Integer, String> names = new HashMap<>();
            for (Integer id : ids) {
                names.put(id, tree.name(id));
            }
            Arrays.sort(ids, (a, b) -> tree.folder(a) != tree.folder(b) ? tree.folder(a) ? -1 : 1
                    : names.get(a).compareToIgnoreCase(names.get(b)));
        }
        return Arrays.stream(ids).mapToInt(Integer::intValue).toArray();
    }

    /** These entries without those that lie below another of them. */
    static List<Integer> outermost(FileTree tree, List<Integer> chosen) {
        Set<Integer> all = new HashSet<>(chosen);
        return chosen.stream().filter(id -> {
            int steps = 0;
            for (int at = tree.parent(id); at >= 0 && steps < 4096; at = tree.parent(at), steps++) {
                if (all.contains(at)) {
                    return false;
                }
            }
            return true;
        }).toList();
    }
}
