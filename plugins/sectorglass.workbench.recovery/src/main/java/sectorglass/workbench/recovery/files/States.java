package sectorglass.workbench.recovery.files;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.IntConsumer;

import org.eclipse.swt.widgets.Display;

import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.recovery.Words;

/** States of files for the rows that are seen, found off the window's thread. For the thread of the window. */
final class States {
    private static final int KEPT = 20_000;

    private final ExecutorService worker = Executors.newSingleThreadExecutor(task -> {
        Thread thread = new Thread(task, "sectorglass file states");
        thread.setDaemon(true);
        return thread;
    });
    private final Display display = Display.getCurrent();
    private final Map<Integer, FileState> known = new LinkedHashMap<>(256, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Integer, FileState> eldest) {
            return size() > KEPT;
        }
    };
    private volatile int generation;

    /** Forgets everything: another volume, or other read states. */
    void clear() {
        generation = generation + 1;
        known.clear();
    }

    /** The state, or null if it is not known yet; then it is found and told. */
    FileState of(Files files, FileTree tree, int entry, IntConsumer found) {
        FileState state = known.get(entry);
        if (state == null) {
            int asked = generation;
            worker.execute(() -> find(files, tree, entry, asked, found));
        }
        return state;
    }

    private void find(Files files, FileTree tree, int entry, int asked, IntConsumer found) {
        if (asked != generation || display.isDisposed()) {
            return;
        }
        FileState state = FileRows.state(files, tree, entry);
        display.asyncExec(() -> {
            if (asked == generation) {
                known.put(entry, state);
                found.accept(entry);
            }
        });
    }

    /** The word of a state for people. */
    static String word(FileState state) {
        return Words.of("state." + state.word());
    }

    /** The shape of a state; null for the normal case. */
    static Sign sign(FileState state) {
        return switch (state) {
            case COMPLETE -> null;
            case DAMAGED -> Sign.AT_RISK;
            case LOST -> Sign.UNUSABLE;
            case ELSEWHERE, ENCRYPTED -> Sign.COSMETIC;
            case UNKNOWN -> Sign.NOT_CHECKED;
        };
    }

    void dispose() {
        clear();
        worker.shutdownNow();
    }
}
