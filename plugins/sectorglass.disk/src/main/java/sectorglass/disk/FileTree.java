package sectorglass.disk;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

import sectorglass.image.SafeText;
import sectorglass.image.SectorRanges;

/**
 * The folder tree of a volume, made for a million files and more: entries are numbers, their parts are asked for one by one. A file with
 * several names is several entries. Ids are 0 to {@link #size} - 1; they mean something only in this tree. Immutable, safe for
 * several threads.
 */
public interface FileTree {

    /** Number of entries, folders, the root and {@link #withoutFolder} included. */
    int size();

    /** Id of the root folder; there always is one, if only for the sake of what hangs below. */
    int root();

    /** Id of the folder <em>Without a folder</em>, whose children no folder of the volume owns; -1 where there are none. */
    int withoutFolder();

    /** Id of the folder that owns the entry; -1 for the root. */
    int parent(int entry);

    /** Name as it stands: it may hold anything. */
    String name(int entry);

    /** Whether the entry is a folder. */
    boolean folder(int entry);

    /** Whether the entry was deleted. */
    boolean deleted(int entry);

    /** Length of the main stream in bytes; -1 where not known. */
    long bytes(int entry);

    /** When the content was changed last, or null. */
    FileStamp modified(int entry);

    /** The file system's own number of the file: record, inode; -1 where it has none. */
    long number(int entry);

    /** Number of children. */
    int childCount(int folder);

    /**
     * Id of a child, in the order of the volume.
     *
     * @param index 0 to {@link #childCount} - 1
     */
    int child(int folder, int index);

    /** Ids of the entries with the file system's own number; more than one where a file has several names. */
    List<Integer> withNumber(long number);

    /** Everything known of an entry; reads its record where needed. */
    FileEntry entry(int entry);

    /** Sectors of metadata that were not read, so that names or whole folders may be missing; empty if the tree is whole. */
    SectorRanges unreadMetadata();

    /** Sentences about the tree as a whole: what was put together, what was given up. */
    List<String> remarks();

    /** Sees entries in {@link #walk}. */
    interface Visitor {
        /** @return whether to go into the entry if it is a folder */
        boolean visit(int entry, int depth);
    }

    /** Walks over an entry and all below it, folders before what they hold. */
    default void walk(int from, Visitor visitor) {
        int[] ids = new int[64];
        int[] next = new int[64];
        int depth = 0;
        ids[0] = from;
        next[0] = visitor.visit(from, 0) ? 0 : Integer.MAX_VALUE;
        while (depth >= 0) {
            if (next[depth] >= childCount(ids[depth])) {
                depth--;
                continue;
            }
            int child = child(ids[depth], next[depth]++);
            if (visitor.visit(child, depth + 1) && childCount(child) > 0) {
                if (++depth == ids.length) {
                    ids = java.util.Arrays.copyOf(ids, depth * 2);
                    next = java.util.Arrays.copyOf(next, depth * 2);
                }
                ids[depth] = child;
                next[depth] = 0;
            }
        }
    }

    /** Path from the root, with {@code /}, safe to show; empty for the root itself. */
    default String path(int entry) {
        List<String> parts = new ArrayList<>();
        for (int at = entry; at >= 0 && at != root() && parts.size() < 4096; at = parent(at)) {
            parts.add(part(name(at)));
        }
        java.util.Collections.reverse(parts);
        return String.join("/", parts);
    }

    /** A name as a part of a path: invisible characters, slashes, and names that mean a folder elsewhere are spelled out. */
    static String part(String name) {
        String safe = SafeText.of(name).replace("/", "\\u{2F}");
        return safe.equals(".") ? "\\u{2E}" : safe.equals("..") ? "\\u{2E}\\u{2E}" : safe.isEmpty() ? "\\u{}" : safe;
    }

    /**
     * The entry with a path as {@link #path} writes it. An entry that is not deleted goes before one that is; exact spelling goes before
     * another use of capitals.
     */
    default OptionalInt find(String path) {
        int at = root();
        for (String part : path.split("/")) {
            if (part.isEmpty() || part.equals(".")) {
                continue;
            }
            int best = -1;
            int rank = 0;
            for (int i = 0; i < childCount(at); i++) {
                int child = child(at, i);
                String name = part(name(child));
                int r = name.equals(part) ? deleted(child) ? 3 : 4 : name.equalsIgnoreCase(part) ? deleted(child) ? 1 : 2 : 0;
                if (r > rank) {
                    rank = r;
                    best = child;
                }
            }
            if (best < 0) {
                return OptionalInt.empty();
            }
            at = best;
        }
        return OptionalInt.of(at);
    }
}
