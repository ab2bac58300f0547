package sectorglass.disk;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.SectorRanges;

/**
 * A {@link FileTree} in arrays: about 45 bytes per entry and one byte per character of its name (two where a name has characters beyond
 * U+00FF). Filled by a {@link CompactTreeBuilder}; everything else of an entry comes from the file system when it is asked for.
 */
public final class CompactTree implements FileTree {
    static final int FOLDER = 1;
    static final int DELETED = 2;
    static final int LOCAL_TIME = 4;
    static final long NO_TIME = Long.MIN_VALUE;

    /** Reads the rest of an entry. */
    @FunctionalInterface
    public interface Details {
        /** @param key what the file system gave to {@link CompactTreeBuilder#add} */
        FileEntry read(FileTree tree, int entry, long key);
    }

    private final CompactTreeBuilder.Columns columns;
    private final int[] order;
    private final int[] firstChild;
    private final int root;
    private final int withoutFolder;
    private final Details details;
    private final SectorRanges unread;
    private final List<String> remarks;
    private int[] byNumber;

    CompactTree(CompactTreeBuilder.Columns columns, int root, int withoutFolder, Details details, SectorRanges unread, List<String> remarks) {
        this.columns = columns;
        this.root = root;
        this.withoutFolder = withoutFolder;
        this.details = details;
        this.unread = unread;
        this.remarks = List.copyOf(remarks);
        int n = columns.count;
        firstChild = new int[n + 1];
        for (int i = 0; i < n; i++) {
            if (columns.parent[i] >= 0) {
                firstChild[columns.parent[i] + 1]++;
            }
        }
        for (int i = 0; i < n; i++) {
            firstChild[i + 1] += firstChild[i];
        }
        order = new int[firstChild[n]];
        int[] fill = firstChild.clone();
        for (int i = 0; i < n; i++) {
            if (columns.parent[i] >= 0) {
                order[fill[columns.parent[i]]++] = i;
            }
        }
    }

    @Override
    public int size() {
        return columns.count;
    }

    @Override
    public int root() {
        return root;
    }

    @Override
    public int withoutFolder() {
        return withoutFolder;
    }

    @Override
    public int parent(int entry) {
        return columns.parent[entry];
    }

    @Override
    public String name(int entry) {
        return columns.names.get(columns.name[entry]);
    }

    @Override
    public boolean folder(int entry) {
        return (columns.flags[entry] & FOLDER) != 0;
    }

    @Override
    public boolean deleted(int entry) {
        return (columns.flags[entry] & DELETED) != 0;
    }

    @Override
    public long bytes(int entry) {
        return columns.bytes[entry];
    }

    @Override
    public FileStamp modified(int entry) {
        long millis = columns.modified[entry];
        if (millis == NO_TIME) {
            return null;
        }
        Instant moment = Instant.ofEpochMilli(millis);
        return (columns.flags[entry] & LOCAL_TIME) != 0 ? FileStamp.local(LocalDateTime.ofInstant(moment, ZoneOffset.UTC))
                : FileStamp.of(moment);
    }

    @Override
    public long number(int entry) {
        return columns.number[entry];
    }

    /** What the file system gave to {@link CompactTreeBuilder#add}. */
    public long key(int entry) {
        return columns.key == null ? columns.number[entry] : columns.key[entry];
    }

    @Override
    public int childCount(int folder) {
        return firstChild[folder + 1] - firstChild[folder];
    }

    @Override
    public int child(int folder, int index) {
        return order[firstChild[folder] + index];
    }

    @Override
    public List<Integer> withNumber(long number) {
        int[] sorted = byNumber();
        int low = 0;
        int high = sorted.length;
        while (low < high) {
            int middle = low + high >>> 1;
            if (columns.number[sorted[middle]] < number) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        List<Integer> found = new ArrayList<>(1);
        while (low < sorted.length && columns.number[sorted[low]] == number) {
            found.add(sorted[low++]);
        }
        return found;
    }

    private synchronized int[] byNumber() {
        if (byNumber == null) {
            int[] ids = new int[columns.count];
            Arrays.setAll(ids, i -> i);
            byNumber = sorted(ids);
        }
        return byNumber;
    }

    /** Sorts ids by number; in most trees they are sorted already. */
    private int[] sorted(int[] ids) {
        boolean inOrder = true;
        for (int i = 1; i < ids.length && inOrder; i++) {
            inOrder = columns.number[i - 1] <= columns.number[i];
        }
        if (inOrder) {
            return ids;
        }
        return Arrays.stream(ids).boxed().sorted((a, b) -> Long.compare(columns.number[a], columns.number[b])).mapToInt(i -> i).toArray();
    }

    @Override
    public FileEntry entry(int entry) {
        return details.read(this, entry, key(entry));
    }

    @Override
    public SectorRanges unreadMetadata() {
        return unread;
    }

    @Override
    public List<String> remarks() {
        return remarks;
    }
}
