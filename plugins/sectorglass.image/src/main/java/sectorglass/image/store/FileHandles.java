package sectorglass.image.store;

import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.Set;

/** Keeps the number of files open at a time small: a disk of 20 TB in parts of 4 GiB has thousands. */
public final class FileHandles {
    /** Open files at a time; systems commonly allow a process 256 to 1024 (common practice, no source). */
    static final int MOST = 64;

    private final Set<StoredFile> open = new LinkedHashSet<>();

    /** The file is about to be used: the one unused for longest is closed if there are too many. */
    synchronized void used(StoredFile file) {
        open.remove(file);
        open.add(file);
        Iterator<StoredFile> oldest = open.iterator();
        while (open.size() > MOST && oldest.hasNext()) {
            StoredFile candidate = oldest.next();
            if (candidate != file && candidate.closeIfIdle()) {
                oldest.remove();
            }
        }
    }

    /** The file was closed. */
    synchronized void closed(StoredFile file) {
        open.remove(file);
    }

    /** Number of files that are open. */
    public synchronized int count() {
        return open.size();
    }
}
