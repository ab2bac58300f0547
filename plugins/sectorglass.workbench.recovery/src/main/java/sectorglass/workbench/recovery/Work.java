package sectorglass.workbench.recovery;

import java.util.function.Consumer;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.swt.widgets.Display;

import sectorglass.image.Progress;

/**
 * A piece of long work off the window's thread that shows how far it is and can be stopped.
 *
 * @param <T> what comes out
 */
public final class Work<T> extends Job {

    /** What is done; may throw what it wants. */
    @FunctionalInterface
    public interface Task<T> {
        /** Does it. */
        T run(Progress progress) throws Exception;
    }

    private final Task<T> task;
    private final Consumer<T> done;
    private final Consumer<String> failed;
    private final Display display = Display.getCurrent();

    /**
     * Prepares the work; {@link #schedule} begins. For the thread of the window.
     *
     * @param done receives the result on the window's thread
     * @param failed receives on the window's thread what went wrong, or null where the person stopped it
     */
    public Work(String name, Task<T> task, Consumer<T> done, Consumer<String> failed) {
        super(name);
        this.task = task;
        this.done = done;
        this.failed = failed;
    }

    @Override
    protected IStatus run(IProgressMonitor monitor) {
        monitor.beginTask(getName(), IProgressMonitor.UNKNOWN);
        try {
            T result = task.run(new OnMonitor(monitor));
            onWindow(() -> done.accept(result));
            return Status.OK_STATUS;
        } catch (Progress.Stopped e) {
            onWindow(() -> failed.accept(null));
            return Status.CANCEL_STATUS;
        } catch (Exception e) {
            ILog.get().warn(getName(), e);
            onWindow(() -> failed.accept(e.getMessage() == null ? e.toString() : e.getMessage()));
            return Status.OK_STATUS;
        } finally {
            monitor.done();
        }
    }

    private void onWindow(Runnable what) {
        if (!display.isDisposed()) {
            display.asyncExec(what);
        }
    }

    /** Shows the progress of engines on a monitor of the platform. */
    private record OnMonitor(IProgressMonitor monitor) implements Progress {
        @Override
        public boolean cancelled() {
            return monitor.isCanceled();
        }

        @Override
        public void at(String what, long done, long total) {
            monitor.subTask(total > 0 ? what + " " + (long) (done * 100.0 / total) + " %" : what);
        }
    }
}
