package sectorglass.workbench.chunks;

import java.io.IOException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;

import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.swt.widgets.Display;

import sectorglass.disk.Level;
import sectorglass.disk.PartEvidence;
import sectorglass.disk.Survey;
import sectorglass.image.ImagePart;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.PartOrder;
import sectorglass.image.Progress;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.JobParts;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.JobProgress;
import sectorglass.workbench.opening.Opening;
import sectorglass.workbench.opening.Session;

/** Asks the structures of the open image about the order of its parts, and opens it in another one, which the job file keeps. */
public final class Reordering {

    private Reordering() {
    }

    /**
     * Looks at the parts beside the window. For the thread of the window.
     *
     * @param then hears on that thread what structures say; null where there is one part, or the image lies in its files in another form than plain
     */
    static void judge(OpenDisk open, Consumer<PartOrder> then, Consumer<String> failed) {
        Display display = Display.getCurrent();
        new Job(Texts.of("job.parts")) {
            @Override
            protected IStatus run(IProgressMonitor monitor) {
                try {
                    Progress progress = new JobProgress(monitor);
                    Findings findings = open.findings() != null ? open.findings()
                            : Survey.ofProviders().verify(open.disk(), Level.QUICK, RuleBook.ofProviders(Locale.getDefault()), progress);
                    PartOrder order = PartEvidence.of((OpenImage) open.image(), open.disk(), findings);
                    onWindow(display, () -> then.accept(order));
                    return Status.OK_STATUS;
                } catch (Progress.Stopped e) {
                    onWindow(display, () -> failed.accept(Texts.of("parts.stopped")));
                    return Status.CANCEL_STATUS;
                }
            }
        }.schedule();
    }

    /**
     * Keeps the order in the job file beside the image and opens the image in it. For the thread of the window.
     *
     * @param parts one after the other; an empty list: found by their numbers again
     * @param refused hears why it cannot be kept or opened
     */
    public static void start(OpenDisk open, List<ImagePart> parts, Consumer<String> refused) {
        int sectorSize = open.image().sectorSize();
        OpenOptions how = Session.how() == null ? OpenOptions.DEFAULT : Session.how();
        Display display = Display.getCurrent();
        new Job(Texts.of("job.parts")) {
            @Override
            protected IStatus run(IProgressMonitor monitor) {
                try {
                    JobParts.keep(JobFile.beside(open.path()), parts, sectorSize, Instant.now().truncatedTo(ChronoUnit.SECONDS),
                            System.getProperty("user.name"));
                    onWindow(display, () -> new Opening(open.path(), how.withParts(List.of()).withPartList(null), refused).schedule());
                } catch (IOException e) {
                    onWindow(display, () -> refused.accept(Texts.of("parts.unsaved", String.valueOf(e.getMessage()))));
                }
                return Status.OK_STATUS;
            }
        }.schedule();
    }

    private static void onWindow(Display display, Runnable task) {
        if (!display.isDisposed()) {
            display.asyncExec(task);
        }
    }
}
