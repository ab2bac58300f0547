package sectorglass.workbench.recovery;

import java.util.function.Consumer;

import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Label;

/** One line that says what was done or is being done, with a button that stops it. */
public final class WorkBar {
    private final Composite line;
    private final Label sentence;
    private final Button stop;
    private Job running;

    /** Builds the line. */
    public WorkBar(Composite parent) {
        line = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout(2, false);
        grid.marginHeight = 0;
        grid.marginWidth = 4;
        line.setLayout(grid);
        line.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        sentence = new Label(line, SWT.NONE);
        sentence.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        stop = new Button(line, SWT.PUSH);
        stop.setText(Words.of("work.stop"));
        GridData data = new GridData(SWT.END, SWT.CENTER, false, false);
        data.exclude = true;
        stop.setLayoutData(data);
        stop.setVisible(false);
        stop.addListener(SWT.Selection, event -> stop());
    }

    /** Says something. */
    public void say(String text) {
        if (!sentence.isDisposed()) {
            sentence.setText(text.replace("&", "&&"));
            sentence.setToolTipText(text);
        }
    }

    /** Whether something runs. */
    public boolean busy() {
        return running != null;
    }

    /** Stops what runs; what comes out of it, even if it has come out just now, is not wanted any more. */
    public void stop() {
        if (running != null) {
            Job stopped = running;
            stopped.cancel();
            finished(Words.of("work.stopped", stopped.getName()));
        }
    }

    /** Starts work; what ran before is stopped, and its result is not wanted any more. */
    public <T> void start(String name, Work.Task<T> task, Consumer<T> done) {
        stop();
        Work<?>[] self = new Work<?>[1];
        Work<T> work = new Work<>(name, task, result -> {
            if (running == self[0] && !line.isDisposed()) {
                finished("");
                done.accept(result);
            }
        }, why -> {
            if (running == self[0] && !line.isDisposed()) {
                finished(why == null ? Words.of("work.stopped", name) : Words.of("work.failed", name, why));
            }
        });
        self[0] = work;
        running = work;
        say(Words.of("work.running", name));
        showStop(true);
        work.schedule();
    }

    private void finished(String text) {
        running = null;
        say(text);
        showStop(false);
    }

    private void showStop(boolean on) {
        ((GridData) stop.getLayoutData()).exclude = !on;
        stop.setVisible(on);
        line.layout();
    }
}
