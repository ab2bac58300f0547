package sectorglass.exfat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.SafeText;

/** Who owns clusters: each file and folder by its folder, its slot and how its clusters are found, in arrays. Folder 0 is the root. */
final class Owners {

    private static final int FIRST = 1 << 14;

    private int count;
    /** First cluster; unsigned, as are the clusters of a run. */
    private int[] start = new int[FIRST];
    /** Clusters of a contiguous run; 0 for a chain in the FAT. */
    private int[] run = new int[FIRST];
    private int[] folder = new int[FIRST];
    private int[] slot = new int[FIRST];
    private long[] where = new long[FIRST];
    private final List<long[]> folders = new ArrayList<>();
    private final List<String> names = new ArrayList<>();
    private final List<String> special = new ArrayList<>();

    /** Adds a folder. @param clusters of its contiguous run, 0 for a chain. @return its number */
    int folder(int parent, long first, long clusters, String name) {
        folders.add(new long[] {parent, first, clusters});
        names.add(name);
        return folders.size() - 1;
    }

    /**
     * Adds an owner.
     *
     * @param clusters of a contiguous run, 0 for a chain in the FAT
     * @param streamByte image byte of the stream extension; -1 for what has none
     * @return its number
     */
    int add(long first, long clusters, int inFolder, int atSlot, long streamByte) {
        if (count == start.length) {
            int more = count * 2;
            start = Arrays.copyOf(start, more);
            run = Arrays.copyOf(run, more);
            folder = Arrays.copyOf(folder, more);
            slot = Arrays.copyOf(slot, more);
            where = Arrays.copyOf(where, more);
        }
        start[count] = (int) first;
        run[count] = (int) clusters;
        folder[count] = inFolder;
        slot[count] = atSlot;
        where[count] = streamByte;
        return count++;
    }

    /** Adds an owner that is no file: the bitmap, the up-case table, the root directory. */
    int special(String name, long first) {
        special.add(name);
        return add(first, 0, 0, -special.size(), -1);
    }

    int count() {
        return count;
    }

    long start(int owner) {
        return Integer.toUnsignedLong(start[owner]);
    }

    long run(int owner) {
        return Integer.toUnsignedLong(run[owner]);
    }

    int folderOf(int owner) {
        return folder[owner];
    }

    int slot(int owner) {
        return slot[owner];
    }

    /** Image byte of the owner's stream extension, or -1. */
    long where(int owner) {
        return where[owner];
    }

    /** The name of an owner that is no file, or null. */
    String special(int owner) {
        return slot[owner] < 0 ? special.get(-slot[owner] - 1) : null;
    }

    /** First cluster of a folder and the clusters of its contiguous run, 0 for a chain. */
    long[] place(int number) {
        return new long[] {folders.get(number)[1], folders.get(number)[2]};
    }

    /** Path of a folder from the root, "/" for the root. */
    String path(int number) {
        StringBuilder path = new StringBuilder();
        int at = number;
        for (int depth = 0; at > 0 && depth < 64; depth++) {
            path.insert(0, "/" + SafeText.of(names.get(at)));
            at = (int) folders.get(at)[0];
        }
        return at > 0 ? "…" + path : path.isEmpty() ? "/" : path.toString();
    }

    String path(int number, String name) {
        String path = path(number);
        return (path.equals("/") ? path : path + "/") + SafeText.of(name);
    }
}
