package sectorglass.workbench.marks;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.Executor;

import sectorglass.image.ByteRange;
import sectorglass.recovery.Job.Mark;
import sectorglass.recovery.JobFile;
import sectorglass.workbench.look.Texts;

/**
 * The marks of the open image by address. For the window's thread; the job file is read and written on the worker. A change is saved at
 * once, over what else stands in the job file by then.
 */
public final class Marks {
    private static final int UNDONE = 200;

    private final Executor worker;
    private final Executor window;
    private final Runnable changed;
    private final Object saving = new Object();
    private final Deque<List<Mark>> undo = new ArrayDeque<>();
    private final Deque<List<Mark>> redo = new ArrayDeque<>();
    private volatile List<Mark> all = List.of();
    private Path image;
    /** Number of the open image; answers for a former one are dropped. */
    private int opened;
    private String trouble;

    /**
     * No marks yet.
     *
     * @param changed called on the window's thread after each change
     */
    public Marks(Executor worker, Executor window, Runnable changed) {
        this.worker = worker;
        this.window = window;
        this.changed = changed;
    }

    /** Shows the marks of another image; null for one that has no file, whose marks are not kept. */
    public void open(Path another) {
        image = another;
        int number = ++opened;
        undo.clear();
        redo.clear();
        all = List.of();
        trouble = null;
        if (another == null) {
            changed.run();
            return;
        }
        worker.execute(() -> {
            List<Mark> loaded = List.of();
            String sentence = null;
            try {
                loaded = JobFile.open(JobFile.beside(another)).job().marks();
            } catch (IOException e) {
                sentence = String.valueOf(e.getMessage());
            }
            List<Mark> found = loaded;
            String said = sentence;
            window.execute(() -> {
                if (number == opened) {
                    List<Mark> both = new ArrayList<>(found);
                    both.addAll(all); // made while the file was being read
                    all = sorted(both);
                    trouble = said;
                    changed.run();
                }
            });
        });
    }

    private static List<Mark> sorted(List<Mark> marks) {
        return marks.stream().sorted(Comparator.comparingLong(Mark::firstByte).thenComparingLong(Mark::length)).toList();
    }

    /** All marks by address. */
    public List<Mark> all() {
        return all;
    }

    /** The bytes of a mark, or null where a job file holds numbers that are no place. */
    public static ByteRange bytes(Mark mark) {
        boolean place = mark.firstByte() >= 0 && mark.length() > 0 && mark.firstByte() <= Long.MAX_VALUE - mark.length();
        return place ? new ByteRange(mark.firstByte(), mark.length()) : null;
    }

    /** Marks that hold a byte of the range. */
    public List<Mark> in(ByteRange range) {
        List<Mark> found = new ArrayList<>();
        for (Mark mark : all) {
            ByteRange bytes = bytes(mark);
            if (bytes != null && bytes.overlaps(range)) {
                found.add(mark);
            }
        }
        return found;
    }

    /** Why marks are not kept in a file, a sentence, or null where they are. */
    public String trouble() {
        return trouble;
    }

    /** Adds a mark. */
    public void add(Mark mark) {
        List<Mark> more = new ArrayList<>(all);
        more.add(mark);
        change(more);
    }

    /** Puts a mark in place of another one. */
    public void replace(Mark former, Mark mark) {
        List<Mark> other = new ArrayList<>(all);
        int at = other.indexOf(former);
        if (at >= 0 && !former.equals(mark)) {
            other.set(at, mark);
            change(other);
        }
    }

    /** Takes a mark away. */
    public void remove(Mark mark) {
        List<Mark> fewer = new ArrayList<>(all);
        if (fewer.remove(mark)) {
            change(fewer);
        }
    }

    /** A name that no mark has yet. */
    public String freeName() {
        int number = all.size() + 1;
        while (true) {
            String name = Texts.of("marks.new", number);
            if (all.stream().noneMatch(mark -> name.equals(mark.name()))) {
                return name;
            }
            number++;
        }
    }

    /** Whether there is a change to take back. */
    public boolean canUndo() {
        return !undo.isEmpty();
    }

    /** Whether there is a change to make again. */
    public boolean canRedo() {
        return !redo.isEmpty();
    }

    /** Takes the last change back. */
    public void undo() {
        step(undo, redo);
    }

    /** Makes the change again that was taken back. */
    public void redo() {
        step(redo, undo);
    }

    private void step(Deque<List<Mark>> from, Deque<List<Mark>> to) {
        if (!from.isEmpty()) {
            to.push(all);
            set(from.pop());
        }
    }

    private void change(List<Mark> marks) {
        undo.push(all);
        if (undo.size() > UNDONE) {
            undo.removeLast();
        }
        redo.clear();
        set(sorted(marks));
    }

    private void set(List<Mark> marks) {
        all = marks;
        save();
        changed.run();
    }

    private void save() {
        Path of = image;
        int number = opened;
        if (of == null) {
            trouble = Texts.of("marks.nofile");
            return;
        }
        List<Mark> now = all;
        worker.execute(() -> {
            String sentence = null;
            try {
                synchronized (saving) {
                    // of several changes the last one is written; an image that was closed since keeps what it had then
                    List<Mark> latest = number == opened ? all : now;
                    JobFile.change(JobFile.beside(of), job -> job.withMarks(latest));
                }
            } catch (IOException e) {
                sentence = Texts.of("marks.unsaved", String.valueOf(e.getMessage()));
            }
            String said = sentence;
            window.execute(() -> {
                if (number == opened && !java.util.Objects.equals(trouble, said)) {
                    trouble = said;
                    changed.run();
                }
            });
        });
    }
}
