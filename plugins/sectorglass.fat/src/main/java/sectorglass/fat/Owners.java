package sectorglass.fat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.SafeText;

/**
 * Who owns chains: for each file and folder its first cluster, its folder, its slot and its size, in arrays. Folder 0 and owner 0 are
 * the root directory.
 */
final class Owners {

    private int count;
    private int[] start = new int[1024];
    private int[] folder = new int[1024];
    private int[] slot = new int[1024];
    private long[] where = new long[1024];
    private long[] size = new long[1024];
    private final List<int[]> folders = new ArrayList<>();
    private final List<String> names = new ArrayList<>();

    /** Adds a folder. @return its number */
    int folder(int parent, int cluster, String name) {
        folders.add(new int[] {parent, cluster});
        names.add(name);
        return folders.size() - 1;
    }

    /** Adds the owner of a chain. @param bytes of a file; -1 for a directory. @return its number */
    int add(int first, int inFolder, int atSlot, long slotByte, long bytes) {
        if (count == start.length) {
            int more = count * 2;
            start = Arrays.copyOf(start, more);
            folder = Arrays.copyOf(folder, more);
            slot = Arrays.copyOf(slot, more);
            where = Arrays.copyOf(where, more);
            size = Arrays.copyOf(size, more);
        }
        start[count] = first;
        folder[count] = inFolder;
        slot[count] = atSlot;
        where[count] = slotByte;
        size[count] = bytes;
        return count++;
    }

    int count() {
        return count;
    }

    int start(int owner) {
        return start[owner];
    }

    int folderOf(int owner) {
        return folder[owner];
    }

    int slot(int owner) {
        return slot[owner];
    }

    /** Image byte of the owner's 8.3 slot; -1 for the root directory of FAT32. */
    long where(int owner) {
        return where[owner];
    }

    /** Size of a file, -1 for a directory. */
    long size(int owner) {
        return size[owner];
    }

    /** Number of the folder added last. */
    int lastFolder() {
        return folders.size() - 1;
    }

    int folderCluster(int number) {
        return folders.get(number)[1];
    }

    /** Path of a folder from the root, "/" for the root. */
    String path(int number) {
        StringBuilder path = new StringBuilder();
        int at = number;
        for (int depth = 0; at > 0 && depth < 64; depth++) {
            path.insert(0, "/" + SafeText.of(names.get(at)));
            at = folders.get(at)[0];
        }
        return at > 0 ? "…" + path : path.isEmpty() ? "/" : path.toString();
    }

    /** Path of something in a folder. */
    String path(int number, String name) {
        String path = path(number);
        return (path.equals("/") ? path : path + "/") + SafeText.of(name);
    }
}
