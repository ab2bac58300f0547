package sectorglass.workbench.model;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executor;
import java.util.function.Consumer;

import sectorglass.workbench.marks.Marks;
import sectorglass.workbench.records.Records;

/** What is pinned over the bytes of a desk, and who hears of changes. */
abstract class Board {
    private final List<DeskListener> listeners = new CopyOnWriteArrayList<>();
    private final Cover cover = new Cover(() -> tell(DeskListener::coverChanged));
    private final Marks marks;
    private final Records records;
    private List<FoundRange> found = List.of();
    private Marked marked = Marked.NOTHING;

    Board(Executor worker, Executor window) {
        marks = new Marks(worker, window, () -> tell(DeskListener::marksChanged));
        records = new Records(worker, window, () -> tell(DeskListener::recordsChanged));
    }

    /** The marks of the open disk. */
    public Marks marks() {
        return marks;
    }

    /** What the job of the open disk records. */
    public Records records() {
        return records;
    }

    /** Reads what is kept beside another image; null for none. */
    void openKept(Path image) {
        marks.open(image);
        records.open(image);
    }

    /** Adds a listener. */
    public void add(DeskListener listener) {
        listeners.add(listener);
    }

    /** Removes a listener. */
    public void remove(DeskListener listener) {
        listeners.remove(listener);
    }

    void tell(Consumer<DeskListener> what) {
        listeners.forEach(what);
    }

    /** What is hidden of the fields. */
    public Cover cover() {
        return cover;
    }

    /** What a search found on the disk; the strip shows it. */
    public List<FoundRange> found() {
        return found;
    }

    /** Shows on the strip what a search found, instead of what was shown before. */
    public void found(List<FoundRange> ranges) {
        found = List.copyOf(ranges);
        tell(DeskListener::foundChanged);
    }

    /** Sectors shown as a whole, those of a file for instance; never null. */
    public Marked marked() {
        return marked;
    }

    /** Shows other sectors as a whole. */
    public void mark(Marked other) {
        marked = other;
        tell(DeskListener::markedChanged);
    }

    /** Marks nothing any more; listeners hear of it with the disk. */
    void unmark() {
        marked = Marked.NOTHING;
    }
}
