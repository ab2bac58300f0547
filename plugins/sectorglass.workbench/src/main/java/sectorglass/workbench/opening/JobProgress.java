package sectorglass.workbench.opening;

import org.eclipse.core.runtime.IProgressMonitor;

import sectorglass.image.Progress;

/** Shows the progress of engines on a monitor of the platform. */
public final class JobProgress implements Progress {
    private final IProgressMonitor monitor;
    private String shown = "";

    /** Progress on this monitor. */
    public JobProgress(IProgressMonitor monitor) {
        this.monitor = monitor;
    }

    @Override
    public boolean cancelled() {
        return monitor.isCanceled();
    }

    @Override
    public void at(String what, long done, long total) {
        String text = total > 0 ? what + " " + done * 100 / total + " %" : what;
        if (!text.equals(shown)) {
            shown = text;
            monitor.subTask(text);
        }
    }
}
